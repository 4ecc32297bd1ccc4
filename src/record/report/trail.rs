//! The trail of entries: when each was made, and what of the record stands on it.

use std::collections::BTreeMap;

use super::said::{people, time};
use crate::print::{Block, Row, Section, Style, Table};
use crate::record::model::{Moment, Record};

/// Every entry that something in the record cites.
pub(super) struct Trail {
    entries: BTreeMap<u64, Entry>,
    usual: Vec<String>,
}

struct Entry {
    at: String,
    what: Vec<String>,
}

impl Trail {
    /// Nothing cited yet.
    pub(super) fn new(record: &Record) -> Self {
        Self { entries: BTreeMap::new(), usual: usual(record) }
    }

    /// Who did what nobody is named for.
    pub(super) fn usual(&self) -> Option<String> {
        (!self.usual.is_empty()).then(|| people(&self.usual))
    }

    /// `#12, Sam Hollis`; whoever did most is not named again.
    pub(super) fn by(&mut self, moment: &Moment, what: impl Into<String>, names: &[String]) -> String {
        let entry = self.cite(moment, what);
        if names == self.usual { entry } else { format!("{entry}, {}", people(names)) }
    }

    /// `#12`; its time and what was cited of it stand in the trail.
    pub(super) fn cite(&mut self, moment: &Moment, what: impl Into<String>) -> String {
        let what = what.into();
        let entry = self.entries.entry(moment.entry);
        let entry = entry.or_insert_with(|| Entry { at: moment.at.clone(), what: Vec::new() });
        if !entry.what.contains(&what) {
            entry.what.push(what);
        }
        format!("#{}", moment.entry)
    }

    /// A time in full, with its entry.
    pub(super) fn full(&mut self, moment: &Moment, what: &str) -> String {
        format!("{}, {}", time(&moment.at), self.cite(moment, what))
    }

    /// The trail, day by day.
    pub(super) fn section(self) -> Section {
        let words = "When each was made. What it says stands above, where its number is named.";
        let mut blocks: Vec<Block> = vec![Block::Words(words.to_owned())];
        let mut last = String::new();
        for (number, entry) in self.entries {
            let shown = time(&entry.at);
            let mut parts = shown.splitn(3, ' ');
            let (date, clock) = (parts.next().unwrap_or_default(), parts.next().unwrap_or_default());
            let day = format!("{date} {}", parts.next().unwrap_or_default());
            if day != last {
                blocks.push(Block::Heading(day.clone()));
                blocks.push(Block::Table(Table {
                    caption: format!("Entries of {day}"),
                    columns: ["Entry", "Time", "What"].map(str::to_owned).to_vec(),
                    rows: Vec::new(),
                    style: Style::Flow,
                }));
                last = day;
            }
            let row = Row {
                at: number.to_string(),
                what: clock.to_owned(),
                cells: vec![entry.what.join(", ")],
                ..Row::default()
            };
            if let Some(Block::Table(table)) = blocks.last_mut() {
                table.rows.push(row);
            }
        }
        Section::rest("Entries", blocks)
    }
}

/// Who took most of the readings and did most of the steps.
fn usual(record: &Record) -> Vec<String> {
    let readings = record.readings.iter().flat_map(|reading| &reading.attempts).map(|attempt| &attempt.who);
    let mut counts: BTreeMap<&Vec<String>, usize> = BTreeMap::new();
    for who in readings.chain(record.steps.iter().map(|step| &step.who)).filter(|who| !who.is_empty()) {
        *counts.entry(who).or_default() += 1;
    }
    counts.into_iter().max_by_key(|(_, count)| *count).map(|(who, _)| who.clone()).unwrap_or_default()
}
