//! What the record was made from, and its seal.

use crate::print::{Block, Section};
use crate::record::model::Record;

pub(super) fn section(record: &Record) -> Section {
    let hash = |name: &str, sha256: &str| (name.to_owned(), sha256.to_owned());
    let mut facts = vec![hash("Procedure", &record.procedure.sha256)];
    facts.extend(record.procedure.linked.iter().map(|linked| hash(&linked.address, &linked.sha256)));
    facts.extend(record.vehicle.sheet.as_ref().map(|sheet| hash("Vehicle sheet", &sheet.sha256)));
    facts.push(("Journal, entries".to_owned(), record.journal.len().to_string()));
    let carried = "The record as data (`bayhand record --json`) holds word for word, by SHA-256:";
    let seal = vec![
        ("Seal".to_owned(), record.seal.sha256.clone()),
        ("Method".to_owned(), record.seal.method.clone()),
    ];
    Section::rest(
        "Seal, and what is carried with the record",
        vec![Block::Facts(seal), Block::Words(carried.to_owned()), Block::Facts(facts)],
    )
}
