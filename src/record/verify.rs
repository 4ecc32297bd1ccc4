//! Record verification: everything that a record says is worked out again from what it carries.

use serde::Deserialize;
use serde_json::Value;

use super::attached::{Attachment, attachments};
use super::build::{Kept, walked, with_seal};
use super::finding::Finding;
use super::model::{FORMAT, Record, Seal};
use super::permitted::not_permitted;
use super::seal;
use crate::journal::{Digest, Pinned, strict_json};
use crate::session::{Books, NotCarried, NotOpened, carried};

/// A record of which everything was worked out again.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Verified {
    /// The record.
    pub record: Record,
    /// The files that were kept with the run: their bytes are not in the record, only what says which bytes they are.
    pub attachments: Vec<Attachment>,
}

/// Verifies a record from its JSON text alone. All findings are given, as far as one does not hide the next.
pub fn verify(json: &str) -> Result<(), Vec<Finding>> {
    verified(json).map(drop)
}

/// The same with what was verified.
pub fn verified(json: &str) -> Result<Verified, Vec<Finding>> {
    verified_with(json, &mut Books::default())
}

/// The same of one of many records, of which several may go by the same texts.
pub fn verified_with(json: &str, books: &mut Books) -> Result<Verified, Vec<Finding>> {
    let value = strict_json(json).map_err(|why| vec![Finding::NotARecord { why }])?;
    let mut findings: Vec<Finding> = seal_finding(&value).into_iter().collect();
    let read = match read(&value) {
        Ok(record) => record_findings(&value, &record, (books, &mut findings)),
        Err(finding) => {
            findings.push(finding);
            None
        }
    };
    read.filter(|_| findings.is_empty()).ok_or(findings)
}

/// The record of a run, from the lines of its journal and the texts that it was started with: each entry is proved to have
/// been allowed where it stands.
pub fn verified_run(lines: &[String], pinned: &Pinned, books: &mut Books) -> Result<Verified, Vec<Finding>> {
    let again = not_sealed(lines, pinned, books)?;
    Ok(Verified { record: with_seal(again.record), ..again })
}

/// The same without a seal: whoever holds it against a record that has one needs none.
fn not_sealed(lines: &[String], pinned: &Pinned, books: &mut Books) -> Result<Verified, Vec<Finding>> {
    let run = carried(lines, pinned, books).map_err(|why| vec![finding(why)])?;
    let kept = Kept { book: &run.book, events: &run.events, lines, pinned };
    Ok(Verified { record: permitted(&kept)?, attachments: attachments(&run.events) })
}

/// The sealed record of a run whose entries are each what the procedure allowed at that moment.
pub fn proved(kept: &Kept<'_>) -> Result<Record, Vec<Finding>> {
    permitted(kept).map(with_seal)
}

fn permitted(kept: &Kept<'_>) -> Result<Record, Vec<Finding>> {
    let walked = walked(kept, |state, event, stamp| match not_permitted(kept.book, state, event, stamp) {
        Some(finding) => Err(vec![finding]),
        None => Ok(()),
    })?;
    walked.record(kept).map_err(|open| open.into_iter().map(Finding::Open).collect())
}

/// How many entries a record holds, without looking at anything else of it; nothing where it is not a record.
pub fn entries_of(json: &str) -> Option<usize> {
    #[derive(serde::Deserialize)]
    struct Entries {
        journal: Vec<serde::de::IgnoredAny>,
    }
    serde_json::from_str::<Entries>(json).ok().map(|entries| entries.journal.len())
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
    Record::deserialize(value).map_err(|error| Finding::NotARecord { why: error.to_string() })
}

/// The texts that a record carries.
pub(super) fn pinned_of(record: &Record) -> Pinned {
    Pinned {
        procedure: record.procedure.text.clone(),
        linked: record.procedure.linked.iter().map(|linked| linked.text.clone()).collect(),
        vehicle: record.vehicle.sheet.as_ref().map(|sheet| sheet.text.clone()),
    }
}

/// What the record carries is worked out again, and compared with what it says.
fn record_findings(
    value: &Value,
    record: &Record,
    (books, findings): (&mut Books, &mut Vec<Finding>),
) -> Option<Verified> {
    findings.extend(hash_findings(record));
    match not_sealed(&record.journal, &pinned_of(record), books) {
        Ok(again) => {
            // That it is a copy, and of which record, no entry says: it stands under the seal alone. Whether the seal
            // belongs to what it stands on was looked at by itself.
            let (redacted, sha256) = (record.redacted.clone(), record.seal.sha256.clone());
            let seal = Seal { method: seal::METHOD.to_owned(), sha256 };
            let again = Verified { record: Record { redacted, seal, ..again.record }, ..again };
            let gives = serde_json::to_value(&again.record).unwrap_or_default();
            compare(("", None), value, &gives, findings);
            Some(again)
        }
        Err(more) => {
            findings.extend(more);
            None
        }
    }
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

/// Where two values differ, as deep down as can be said, and by which entry of the journal.
fn compare((at, entry): (&str, Option<u64>), says: &Value, gives: &Value, findings: &mut Vec<Finding>) {
    match (says, gives) {
        (Value::Object(one), Value::Object(other)) => {
            let entry = gives.pointer("/when/entry").and_then(Value::as_u64).or(entry);
            // What is empty may be left out of either.
            for key in other.keys().chain(one.keys().filter(|key| !other.contains_key(*key))) {
                let [one, other] = [one, other].map(|map| map.get(key).unwrap_or(&Value::Null));
                compare((&format!("{at}/{key}"), entry), one, other, findings);
            }
        }
        (Value::Array(one), Value::Array(other)) if one.len() == other.len() => {
            for (index, (one, other)) in one.iter().zip(other).enumerate() {
                compare((&format!("{at}/{index}"), entry), one, other, findings);
            }
        }
        _ if says == gives => {}
        _ => findings.push(Finding::Differs {
            at: at.to_owned(),
            entry,
            says: says.to_string(),
            gives: gives.to_string(),
        }),
    }
}
