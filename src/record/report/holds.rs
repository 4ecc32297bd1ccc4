//! Hold points, with every verification.

use super::said::{address, aside};
use super::trail::Trail;
use crate::print::{Block, Section};
use crate::record::model::{Hold, Record, Verification};

pub(super) fn section(record: &Record, trail: &mut Trail) -> Option<Section> {
    let blocks: Vec<Block> = record.holds.iter().flat_map(|hold| blocks(hold, trail)).collect();
    (!blocks.is_empty()).then(|| Section::rest("Hold points", blocks))
}

fn blocks(hold: &Hold, trail: &mut Trail) -> Vec<Block> {
    let protection =
        hold.protection.as_ref().map(|words| format!("; protection: {words}")).unwrap_or_default();
    let heading = format!("{} {} [{}]{protection}", address(&hold.step, &hold.place), hold.what, hold.name);
    let mut items: Vec<String> = aside(&hold.place).into_iter().collect();
    if hold.verifications.is_empty() {
        items.push("not verified".to_owned());
    }
    for (index, verification) in hold.verifications.iter().enumerate() {
        let mut about = About { hold, trail, said: Vec::new() };
        about.verification(verification);
        let number = if hold.verifications.len() > 1 {
            format!("Verification {}: ", index + 1)
        } else {
            String::new()
        };
        items.push(format!("{number}{}", about.said.join("; ")));
    }
    vec![Block::Heading(heading), Block::Items(items)]
}

struct About<'a> {
    hold: &'a Hold,
    trail: &'a mut Trail,
    said: Vec<String>,
}

impl About<'_> {
    fn verification(&mut self, verification: &Verification) {
        let again = verification.again_because.as_ref().map(|why| format!("again because: {why}"));
        self.said.extend(again);
        for untrue in &verification.untrue {
            let entry = self.cite(&untrue.when);
            self.said.push(format!("NOT TRUE: {} ({entry}); instead: {}", untrue.statement, untrue.instead));
        }
        let mut found: Vec<String> = Vec::new();
        for statement in &verification.confirmed {
            found.push(format!("{} ({})", statement.statement, self.cite(&statement.when)));
        }
        if !found.is_empty() {
            self.said.push(format!("true: {}", found.join("; ")));
        }
        let mut read: Vec<String> = Vec::new();
        for reading in &verification.readings {
            read.push(format!("{}: {} ({})", reading.what, reading.answer, self.cite(&reading.when)));
        }
        for group in &verification.fasteners {
            let (from, to) = (self.cite(&group.from), self.cite(&group.to));
            read.push(format!(
                "fasteners: {}, place by place under Fasteners (from {from} to {to})",
                group.what
            ));
        }
        if !read.is_empty() {
            self.said.push(format!("read: {}", read.join("; ")));
        }
        let mut ends: Vec<String> = Vec::new();
        for release in &verification.released {
            ends.push(format!(
                "released by {} ({}), {}",
                release.name,
                release.role,
                self.cite(&release.when)
            ));
        }
        if let Some(ended) = &verification.ended {
            ends.push(format!("ended: {} ({})", ended.why, self.cite(&ended.when)));
        }
        if !ends.is_empty() {
            self.said.push(ends.join("; "));
        }
    }

    fn cite(&mut self, moment: &crate::record::model::Moment) -> String {
        self.trail.cite(moment, format!("[{}]", self.hold.name))
    }
}
