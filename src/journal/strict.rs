//! JSON read strictly: a text that names a key twice is refused.

use std::fmt;

use serde::de::{Deserialize, Deserializer, Error, MapAccess, SeqAccess, Visitor};
use serde_json::{Map, Number, Value};

/// A JSON value that names no key twice.
///
/// Readers differ in which of two equal keys they take, so such a text would mean different things to different readers.
pub(super) struct Strict(pub(super) Value);

impl<'de> Deserialize<'de> for Strict {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_any(StrictVisitor).map(Self)
    }
}

struct StrictVisitor;

impl<'de> Visitor<'de> for StrictVisitor {
    type Value = Value;

    fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("a JSON value")
    }

    fn visit_unit<E: Error>(self) -> Result<Value, E> {
        Ok(Value::Null)
    }

    fn visit_bool<E: Error>(self, truth: bool) -> Result<Value, E> {
        Ok(Value::Bool(truth))
    }

    fn visit_i64<E: Error>(self, number: i64) -> Result<Value, E> {
        Ok(Value::from(number))
    }

    fn visit_u64<E: Error>(self, number: u64) -> Result<Value, E> {
        Ok(Value::from(number))
    }

    fn visit_f64<E: Error>(self, number: f64) -> Result<Value, E> {
        let finite = Number::from_f64(number).ok_or_else(|| E::custom("a number is too large"))?;
        Ok(Value::Number(finite))
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<Value, E> {
        Ok(Value::from(text))
    }

    fn visit_string<E: Error>(self, text: String) -> Result<Value, E> {
        Ok(Value::from(text))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Value, A::Error> {
        let mut list = Vec::new();
        while let Some(Strict(item)) = items.next_element()? {
            list.push(item);
        }
        Ok(Value::Array(list))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut entries: A) -> Result<Value, A::Error> {
        let mut map = Map::new();
        while let Some((key, Strict(value))) = entries.next_entry::<String, Strict>()? {
            if map.contains_key(&key) {
                return Err(twice(&key));
            }
            map.insert(key, value);
        }
        Ok(Value::Object(map))
    }
}

/// A key stands twice.
pub(super) fn twice<E: Error>(key: &str) -> E {
    E::custom(format!("the key `{key}` stands twice"))
}

/// Reads JSON in which no key stands twice.
pub(crate) fn strict_json(text: &str) -> Result<Value, String> {
    let Strict(value) = serde_json::from_str(text).map_err(|error| error.to_string())?;
    Ok(value)
}

/// A line is read by itself, so the library's "line 1" would only confuse.
pub(super) fn plain(error: &serde_json::Error) -> String {
    error.to_string().replace("at line 1 column", "at byte")
}
