//! A copy of a record for strangers, in which names or the vehicle's identity are hidden.
//!
//! The names are replaced in the entries and in the texts that the run was started with, each person by the same words
//! throughout; the chain and the seal are made anew over that. So the copy is a record of its own: all of it is worked out
//! again and verified like any other. It names the seal of the record that it is a copy of. That it is one, only somebody who
//! has that record can show: the same words hidden in it give the same copy, byte for byte.
//!
//! Whom the entries do not name is not known, such as somebody who agreed to a value of the sheet: he is hidden where he is
//! named besides. Who wrote the procedure, which documents the values are from, and which vehicles the procedure is for stays: it is no
//! part of what the run says of its people and its vehicle. Photos are not in a record, and so not in a copy.

use std::fmt;

use serde_json::Value;

use super::model::{Record, Redacted};
use super::replacing::{Replacement, in_entry, people_in, without_remarks};
use super::seal::sealed;
use super::verify::{pinned_of, verified_run};
use crate::journal::{Digest, Pinned, chained, read_time};
use crate::session::Books;

/// What a copy can hide.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Hidden {
    /// The people: their names, any part of them, and their initials.
    Names,
    /// What its sheet calls the vehicle, and the number that identifies it.
    Vehicle,
}

impl Hidden {
    /// All of them.
    pub const ALL: [Self; 2] = [Self::Names, Self::Vehicle];

    /// The word.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Names => "names",
            Self::Vehicle => "vehicle",
        }
    }
}

/// Why no copy was made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotRedacted {
    /// Why.
    pub why: String,
}

impl fmt::Display for NotRedacted {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "no copy was made: {}", self.why)
    }
}

impl std::error::Error for NotRedacted {}

fn because(why: impl Into<String>) -> NotRedacted {
    NotRedacted { why: why.into() }
}

/// The copy of a verified record in which this is hidden, and these words besides: somebody who took no part in the run, a
/// number plate. It verifies, or there is none.
pub fn redacted(record: &Record, hidden: &[Hidden], besides: &[String]) -> Result<Record, NotRedacted> {
    if record.redacted.is_some() {
        return Err(because("the record is a redacted copy already; make another from the record itself"));
    }
    let lines = record.journal.iter().map(|line| serde_json::from_str(line));
    let mut lines: Vec<Value> =
        lines.collect::<Result<_, _>>().map_err(|error| because(error.to_string()))?;
    let mut replacements = replacements(record, &lines, hidden);
    replacements.extend(besides.iter().map(|words| Replacement::whole(words, "HIDDEN")));
    // A longer one first: its parts are other replacements.
    replacements.sort_by_key(|replacement| std::cmp::Reverse(replacement.from.chars().count()));
    let pinned = pinned(record, &replacements)?;
    for line in &mut lines {
        in_entry(&replacements, line);
    }
    if let Some(first) = lines.first_mut() {
        pin(first, &pinned);
    }
    let mut copy = verified_run(&again(&lines)?, &pinned, &mut Books::default())
        .map(|verified| verified.record)
        .map_err(|findings| {
            let why: Vec<String> = findings.iter().map(ToString::to_string).collect();
            because(format!(
                "a name in it is also a word that the run rests on, and without it {}",
                why.join("; ")
            ))
        })?;
    let mut words: Vec<String> = hidden.iter().map(|hidden| hidden.word().to_owned()).collect();
    words.sort();
    words.dedup();
    words.extend((!besides.is_empty()).then(|| "other words".to_owned()));
    copy.redacted = Some(Redacted { hidden: words, of: record.seal.sha256.clone() });
    copy.seal = sealed(&copy);
    nothing_left(&copy, &replacements).map(|()| copy)
}

fn replacements(record: &Record, lines: &[Value], hidden: &[Hidden]) -> Vec<Replacement> {
    let mut all = Vec::new();
    if hidden.contains(&Hidden::Vehicle) {
        let vehicle = &record.vehicle;
        all.extend(vehicle.description.iter().map(|words| Replacement::whole(words, "vehicle hidden")));
        all.extend(vehicle.identification.iter().map(|words| Replacement::whole(words, "HIDDEN")));
    }
    if hidden.contains(&Hidden::Names) {
        for (name, number) in people_in(lines).iter().zip(1..) {
            all.extend(Replacement::of_person(name, &format!("Person {number}")));
        }
    }
    all
}

/// The texts that the copy was started with. A part of a name may be a word like any other in them: it stays.
fn pinned(record: &Record, replacements: &[Replacement]) -> Result<Pinned, NotRedacted> {
    let hide = |text: &str| {
        let whole = replacements.iter().filter(|replacement| replacement.is_whole);
        whole.fold(text.to_owned(), |text, replacement| replacement.within(&text))
    };
    let Pinned { procedure, linked, vehicle } = pinned_of(record);
    let vehicle = vehicle.map(|text| without_remarks(&text)).transpose().map_err(because)?;
    Ok(Pinned {
        procedure: hide(&procedure),
        linked: linked.iter().map(|text| hide(text)).collect(),
        vehicle: vehicle.map(|text| hide(&text)),
    })
}

/// The first entry says which texts they were.
fn pin(first: &mut Value, pinned: &Pinned) {
    let mut put = |at: &str, text: &str| {
        if let Some(hash) = first.pointer_mut(&format!("/event/what/started/{at}/sha256")) {
            *hash = Digest::of(text.as_bytes()).to_string().into();
        }
    };
    put("procedure", &pinned.procedure);
    for (place, text) in pinned.linked.iter().enumerate() {
        put(&format!("linked/{place}"), text);
    }
    if let Some(text) = &pinned.vehicle {
        put("sheet", text);
    }
}

/// The lines with their chain made anew.
fn again(lines: &[Value]) -> Result<Vec<String>, NotRedacted> {
    let entries = lines.iter().map(|line| {
        let time = line.get("time").and_then(Value::as_str).unwrap_or_default();
        let time = read_time(time).map_err(|error| because(error.to_string()))?;
        Ok((time, line.get("event").cloned().unwrap_or_default()))
    });
    let entries: Vec<_> = entries.collect::<Result<_, NotRedacted>>()?;
    chained(&entries).map_err(because)
}

/// What was to be hidden stands nowhere in the copy.
fn nothing_left(copy: &Record, replacements: &[Replacement]) -> Result<(), NotRedacted> {
    let text = serde_json::to_string(copy).unwrap_or_default();
    let left =
        replacements.iter().find(|replacement| replacement.is_whole && replacement.within(&text) != text);
    left.map_or(Ok(()), |left| Err(because(format!("`{}` could not be taken out of it", left.from))))
}
