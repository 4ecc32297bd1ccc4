//! Record verification: everything that a record says is worked out again from what it carries.

use serde_json::Value;

use super::build::{Kept, build};
use super::finding::Finding;
use super::model::{FORMAT, Record};
use super::permitted::first_not_permitted;
use super::seal;
use crate::journal::{Digest, Pinned, strict_json};
use crate::session::{NotCarried, NotOpened, carried};

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
    match again(record) {
        Ok(again) => compare("", value, &serde_json::to_value(again).unwrap_or_default(), &mut findings),
        Err(more) => findings.extend(more),
    }
    findings
}

/// The record that the carried journal, procedure and sheet give.
fn again(record: &Record) -> Result<Record, Vec<Finding>> {
    let pinned = Pinned {
        procedure: record.procedure.text.clone(),
        linked: record.procedure.linked.iter().map(|linked| linked.text.clone()).collect(),
        vehicle: record.vehicle.sheet.as_ref().map(|sheet| sheet.text.clone()),
    };
    let run = carried(&record.journal, &pinned).map_err(|why| vec![finding(why)])?;
    if let Some(finding) = first_not_permitted(&run.book, &run.events) {
        return Err(vec![finding]);
    }
    let kept = Kept { book: &run.book, events: &run.events, lines: &record.journal, pinned: &pinned };
    build(&kept).map_err(|open| open.into_iter().map(Finding::Open).collect())
}

fn finding(why: NotCarried) -> Finding {
    match why {
        NotCarried::Damaged { line, damage } => Finding::Journal { line, damage },
        NotCarried::NotOpened(NotOpened::PinChanged { file }) => Finding::NotPinned { file },
        other => Finding::NotReadable { why: other.to_string() },
    }
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
