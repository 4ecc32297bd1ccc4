//! The seal: a hash over everything else.

use std::fmt;

use serde::{Serialize, Serializer};
use serde_json::{Map, Value};

use super::model::Seal;
use crate::journal::Digest;

/// What a seal is, in the words that it carries itself.
pub const METHOD: &str = "SHA-256 of this record without `seal`, in the canonical form of RFC 8785";

/// A value that has no canonical form.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotCanonical {
    /// Why not.
    pub why: String,
}

impl fmt::Display for NotCanonical {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "it has no canonical form: {}", self.why)
    }
}

impl std::error::Error for NotCanonical {}

/// The canonical form of RFC 8785. Whole numbers above 2^53 would be rounded, so a record has none.
pub fn canonical<T: Serialize>(value: &T) -> Result<Vec<u8>, NotCanonical> {
    serde_json_canonicalizer::to_vec(value).map_err(|error| NotCanonical { why: error.to_string() })
}

/// The seal that belongs on this record, in hexadecimal; a seal that stands on it already does not count.
pub fn seal_of(record: &Value) -> Result<String, NotCanonical> {
    let bytes = match record {
        Value::Object(map) => canonical(&Bare(map))?,
        other => canonical(other)?,
    };
    Ok(Digest::of(&bytes).to_string())
}

/// All of an object but its seal.
struct Bare<'record>(&'record Map<String, Value>);

impl Serialize for Bare<'_> {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_map(self.0.iter().filter(|(key, _)| *key != "seal"))
    }
}

/// The seal that belongs on a record. Records are texts and small whole numbers, which all have a canonical form.
pub(crate) fn sealed<T: Serialize>(record: &T) -> Seal {
    let value = serde_json::to_value(record).unwrap_or_default();
    Seal { method: METHOD.to_owned(), sha256: seal_of(&value).unwrap_or_default() }
}
