//! Record verification: everything that a record says is worked out again from what it carries.

use std::fmt;

use serde_json::Value;

use super::model::{FORMAT, Record};
use super::{rebuild, seal};
use crate::journal::{Damage, Digest, strict_json};
use crate::run::OpenItem;

/// Something that shows that a record is not what was sealed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Finding {
    /// It is not JSON, a key stands twice in it, or a field is missing, unknown or of another kind.
    NotARecord {
        /// Why.
        why: String,
    },
    /// Its format is not known.
    Format {
        /// The format that it names.
        found: u32,
    },
    /// The seal does not belong to it.
    Seal {
        /// The hash that it carries.
        carried: String,
        /// The hash that it has.
        is: String,
    },
    /// The hash of a carried text is not the one that stands beside it.
    Hash {
        /// Which text.
        text: String,
    },
    /// A carried text is not the one that the run was started with.
    NotPinned {
        /// Which text.
        file: String,
    },
    /// A line of the carried journal is not as it was written.
    Journal {
        /// The entry, from 1.
        line: u64,
        /// What is wrong with it.
        damage: Damage,
    },
    /// A carried text cannot be read by this version.
    NotReadable {
        /// Why.
        why: String,
    },
    /// An entry of the carried journal is not one that the procedure allowed at that moment.
    NotPermitted {
        /// The entry, from 1.
        entry: u64,
        /// Why not.
        why: String,
    },
    /// The carried journal is that of a run with something open.
    Open(OpenItem),
    /// The record says something else than the journal gives.
    Differs {
        /// Where: `/readings/2/attempts/0/answer`.
        at: String,
        /// What the record says.
        says: String,
        /// What the journal gives.
        gives: String,
    },
}

/// Verifies a record from its JSON text alone. All findings are given, as far as one does not hide the next.
pub fn verify(json: &str) -> Result<(), Vec<Finding>> {
    let value = strict_json(json).map_err(|why| vec![Finding::NotARecord { why }])?;
    let mut findings: Vec<Finding> = seal_finding(&value).into_iter().collect();
    match read(&value) {
        Ok(record) => findings.extend(record_findings(&value, &record)),
        Err(finding) => findings.push(finding),
    }
    if findings.is_empty() { Ok(()) } else { Err(findings) }
}

fn seal_finding(value: &Value) -> Option<Finding> {
    let carried = value.pointer("/seal/sha256").and_then(Value::as_str).unwrap_or_default();
    match seal::seal_of(value) {
        Ok(is) if is == carried => None,
        Ok(is) => Some(Finding::Seal { carried: carried.to_owned(), is }),
        Err(error) => Some(Finding::NotARecord { why: error.to_string() }),
    }
}

fn read(value: &Value) -> Result<Record, Finding> {
    let format = value.get("format").and_then(Value::as_u64).and_then(|format| u32::try_from(format).ok());
    if let Some(found) = format.filter(|format| *format != FORMAT) {
        return Err(Finding::Format { found });
    }
    serde_json::from_value(value.clone()).map_err(|error| Finding::NotARecord { why: error.to_string() })
}

fn record_findings(value: &Value, record: &Record) -> Vec<Finding> {
    let mut findings = hash_findings(record);
    match rebuild::again(record) {
        Ok(again) => compare("", value, &serde_json::to_value(again).unwrap_or_default(), &mut findings),
        Err(more) => findings.extend(more),
    }
    findings
}

fn hash_findings(record: &Record) -> Vec<Finding> {
    let procedure = ("procedure".to_owned(), &record.procedure.text, &record.procedure.sha256);
    let linked = record.procedure.linked.iter();
    let linked =
        linked.map(|linked| (format!("procedure `{}`", linked.address), &linked.text, &linked.sha256));
    let sheet = record.vehicle.sheet.as_ref();
    let sheet = sheet.map(|sheet| ("vehicle sheet".to_owned(), &sheet.text, &sheet.sha256));
    let texts = std::iter::once(procedure).chain(linked).chain(sheet);
    let wrong = texts.filter(|(_, text, hash)| Digest::of(text.as_bytes()).to_string() != **hash);
    wrong.map(|(text, _, _)| Finding::Hash { text }).collect()
}

/// Where two values differ, as deep down as can be said.
fn compare(at: &str, says: &Value, gives: &Value, findings: &mut Vec<Finding>) {
    match (says, gives) {
        (Value::Object(one), Value::Object(other)) => {
            // Both were read as, or made from, the same types: they have the same keys.
            for (key, value) in other {
                compare(&format!("{at}/{key}"), one.get(key).unwrap_or(&Value::Null), value, findings);
            }
        }
        (Value::Array(one), Value::Array(other)) if one.len() == other.len() => {
            for (index, (one, other)) in one.iter().zip(other).enumerate() {
                compare(&format!("{at}/{index}"), one, other, findings);
            }
        }
        _ if says == gives => {}
        _ => findings.push(Finding::Differs {
            at: at.to_owned(),
            says: says.to_string(),
            gives: gives.to_string(),
        }),
    }
}

impl fmt::Display for Finding {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotARecord { why } => write!(out, "this is not a record: {why}"),
            Self::Format { found } => write!(
                out,
                "the record has format {found}, and this version reads format {FORMAT}; use the version that wrote it"
            ),
            Self::Seal { carried, is } => {
                write!(out, "the seal does not belong to this record: it says {carried}, the record has {is}")
            }
            Self::Hash { text } => {
                write!(out, "the {text} in this record is not the one whose hash stands beside it")
            }
            Self::NotPinned { file } => {
                write!(out, "`{file}` in this record is not what the run was started with")
            }
            Self::Journal { line, damage } => {
                write!(out, "not verified at entry {line}: {}", damage.told(*line))
            }
            Self::NotReadable { why } => write!(out, "it cannot be worked out again: {why}"),
            Self::NotPermitted { entry, why } => {
                write!(out, "not verified at entry {entry}: it could not happen there ({why})")
            }
            Self::Open(item) => write!(out, "the run was not finished: {item}"),
            Self::Differs { at, says, gives } => {
                write!(out, "`{at}` says {says}, but the journal gives {gives}")
            }
        }
    }
}
