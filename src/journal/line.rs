//! A line of the journal as it is written and read, its event apart.

use std::borrow::Cow;
use std::fmt;

use jiff::ZonedDateTime;
use serde::Serialize;
use serde::de::{Deserialize, Deserializer, MapAccess, Visitor};
use serde_json::{Map, Value};

use super::sound::Sound;
use super::strict::{Strict, plain, twice};
use super::{Digest, FORMAT, Head, read_time, write_time};

/// What a line says, before it is known whether it stands in its place.
#[derive(Debug)]
pub(super) struct Fields {
    pub(super) names_format: bool,
    pub(super) seq: u64,
    pub(super) time: ZonedDateTime,
    pub(super) prev: Digest,
}

/// A line as JSON. Its event is only looked through: what it means is read where the events are typed.
struct Outer(Map<String, Value>);

struct OuterVisitor;

impl<'de> Deserialize<'de> for Outer {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_map(OuterVisitor)
    }
}

impl<'de> Visitor<'de> for OuterVisitor {
    type Value = Outer;

    fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("a JSON object")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut entries: A) -> Result<Outer, A::Error> {
        let mut map = Map::new();
        while let Some(key) = entries.next_key::<String>()? {
            let value = if key == "event" {
                let Sound = entries.next_value()?;
                Value::Null
            } else {
                let Strict(value) = entries.next_value()?;
                value
            };
            if map.contains_key(&key) {
                return Err(twice(&key));
            }
            map.insert(key, value);
        }
        Ok(Outer(map))
    }
}

/// Why a line cannot be read.
#[derive(Debug)]
pub(super) enum Unread {
    /// A format that this bayhand does not know; the number, or what stands in its place.
    Format(String),
    /// What is wrong with it.
    Wrong(String),
}

/// A line as it goes to the disk: the order of the fields is the order in the file.
#[derive(Serialize)]
struct Written<'a, E> {
    #[serde(skip_serializing_if = "Option::is_none")]
    format: Option<u64>,
    seq: u64,
    time: String,
    prev: String,
    event: &'a E,
}

/// The line that follows `head`, newline included, and what a reader will find in it.
///
/// The line is read again before anybody writes it, so that nothing is acknowledged that cannot be read.
pub(super) fn build<E: Serialize>(
    head: &Head,
    time: &ZonedDateTime,
    event: &E,
) -> Result<(String, Fields), String> {
    let first = head.seq == 0;
    let written = Written {
        format: first.then_some(FORMAT),
        seq: head.seq + 1,
        time: write_time(time),
        prev: head.digest.to_string(),
        event,
    };
    let mut line = serde_json::to_string(&written).map_err(|error| error.to_string())?;
    let fields = read(&line).map_err(|unread| match unread {
        Unread::Format(why) | Unread::Wrong(why) => why,
    })?;
    line.push('\n');
    Ok((line, fields))
}

/// The lines, without their newlines, of a journal in which these events happened at these times.
pub(crate) fn chained<E: Serialize>(entries: &[(ZonedDateTime, E)]) -> Result<Vec<String>, String> {
    let mut head = Head::of_nothing();
    let lines = entries.iter().map(|(time, event)| {
        let (mut line, _) = build(&head, time, event)?;
        head = head.after(line.as_bytes());
        line.pop();
        Ok(line)
    });
    lines.collect()
}

/// Reads a line without its newline.
pub(super) fn read(text: &str) -> Result<Fields, Unread> {
    if text.trim().is_empty() {
        return Err(Unread::Wrong("it is empty".to_owned()));
    }
    if !text.trim_start().starts_with('{') {
        return Err(Unread::Wrong("it is not a JSON object".to_owned()));
    }
    if let Some(fields) = plain_fields(text) {
        return Ok(fields);
    }
    let Outer(mut map) = serde_json::from_str(text).map_err(|error| Unread::Wrong(plain(&error)))?;
    if let Some(unknown) = map.get("format").filter(|format| format.as_u64() != Some(FORMAT)) {
        return Err(Unread::Format(unknown.to_string()));
    }
    let fields = take_fields(&mut map).map_err(Unread::Wrong)?;
    match map.keys().next() {
        Some(key) => Err(Unread::Wrong(format!("`{key}` is not part of this format"))),
        None => Ok(fields),
    }
}

/// A line as it is written: all of its keys, each once, and no other. Nearly every line is read so, without a copy of
/// anything; what is not quite so is looked at key by key, which finds what is wrong with it.
#[derive(serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Plain<'line> {
    #[serde(default, deserialize_with = "named")]
    format: Option<u64>,
    seq: u64,
    #[serde(borrow)]
    time: Cow<'line, str>,
    #[serde(borrow)]
    prev: Cow<'line, str>,
    event: Sound,
}

/// A format that is named is a number, and nothing is none.
fn named<'de, D: Deserializer<'de>>(from: D) -> Result<Option<u64>, D::Error> {
    u64::deserialize(from).map(Some)
}

fn plain_fields(text: &str) -> Option<Fields> {
    let Plain { format, seq, time, prev, event: Sound } = serde_json::from_str(text).ok()?;
    let is_known = format.is_none_or(|format| format == FORMAT) && seq > 0;
    let (time, prev) = (read_time(&time).ok()?, Digest::parse(&prev)?);
    is_known.then_some(Fields { names_format: format.is_some(), seq, time, prev })
}

fn take_fields(map: &mut Map<String, Value>) -> Result<Fields, String> {
    let fields = Fields {
        names_format: map.remove("format").is_some(),
        seq: take(map, "seq", |value| value.as_u64().filter(|&seq| seq > 0))?,
        time: take(map, "time", |value| read_time(value.as_str()?).ok())?,
        prev: take(map, "prev", |value| Digest::parse(value.as_str()?))?,
    };
    taken(map, "event").map(|_| fields)
}

fn taken(map: &mut Map<String, Value>, key: &str) -> Result<Value, String> {
    map.remove(key).ok_or_else(|| format!("`{key}` is missing"))
}

fn take<T>(map: &mut Map<String, Value>, key: &str, read: impl Fn(&Value) -> Option<T>) -> Result<T, String> {
    let value = taken(map, key)?;
    read(&value).ok_or_else(|| format!("`{key}` cannot be `{value}`"))
}
