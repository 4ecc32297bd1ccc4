//! JSON that is only looked through: it is whole, and no key stands in it twice.

use std::borrow::Cow;
use std::collections::BTreeSet;
use std::fmt;

use serde::de::{Deserialize, Deserializer, Error, MapAccess, SeqAccess, Visitor};

use super::strict::twice;

/// That a JSON value is sound, whatever it is.
pub(super) struct Sound;

#[derive(serde::Deserialize, PartialEq, Eq, PartialOrd, Ord)]
struct Key<'text>(#[serde(borrow)] Cow<'text, str>);

/// The keys of one object. Nearly all have few, which are looked through; only of many a set is kept.
#[derive(Default)]
struct Keys<'text> {
    few: Vec<Key<'text>>,
    many: BTreeSet<Key<'text>>,
}

/// So many keys are looked through.
const FEW: usize = 8;

impl<'text> Keys<'text> {
    /// Keeps a key; one that was there already is given back.
    fn kept_before(&mut self, key: Key<'text>) -> Option<Key<'text>> {
        if self.few.contains(&key) {
            return Some(key);
        }
        if self.few.len() < FEW {
            self.few.push(key);
            return None;
        }
        self.many.replace(key)
    }
}

impl<'de> Deserialize<'de> for Sound {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_any(Self)
    }
}

impl<'de> Visitor<'de> for Sound {
    type Value = Self;

    fn expecting(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("a JSON value")
    }

    fn visit_unit<E: Error>(self) -> Result<Self, E> {
        Ok(Self)
    }

    fn visit_bool<E: Error>(self, _: bool) -> Result<Self, E> {
        Ok(Self)
    }

    fn visit_i64<E: Error>(self, _: i64) -> Result<Self, E> {
        Ok(Self)
    }

    fn visit_u64<E: Error>(self, _: u64) -> Result<Self, E> {
        Ok(Self)
    }

    fn visit_f64<E: Error>(self, _: f64) -> Result<Self, E> {
        Ok(Self)
    }

    fn visit_str<E: Error>(self, _: &str) -> Result<Self, E> {
        Ok(Self)
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Self, A::Error> {
        while let Some(Self) = items.next_element()? {}
        Ok(Self)
    }

    fn visit_map<A: MapAccess<'de>>(self, mut entries: A) -> Result<Self, A::Error> {
        let mut keys = Keys::default();
        while let Some((key, Self)) = entries.next_entry::<Key<'de>, Self>()? {
            if let Some(key) = keys.kept_before(key) {
                return Err(twice(&key.0));
            }
        }
        Ok(Self)
    }
}
