//! What is left to be done, and what protects beyond the run.

use super::said::time;
use super::trail::Trail;
use crate::print::{Block, Section};
use crate::record::model::{Record, Standing};

pub(super) fn section(record: &Record, trail: &mut Trail) -> Section {
    let mut facts: Vec<(&str, String)> = super::dues::facts(record, trail);
    for found in &record.found_in_force {
        let since = format!(
            "looked at by {}, {}, entry #{}, run {}",
            found.by,
            time(&found.when.at),
            found.when.entry,
            found.run
        );
        facts.push(("Found in force", format!("{} ({since})", found.what)));
    }
    for end in &record.loose_ends {
        let became = end.became.as_deref().unwrap_or("OPEN");
        let left = end.when.as_ref().map(|when| format!("; left: {}", trail.cite(when, "loose end")));
        let entered = end.became_when.as_ref();
        let entered = entered.map(|when| format!("; entered: {}", trail.cite(when, "loose end settled")));
        let more: String = left.into_iter().chain(entered).collect();
        facts.push(("Loose end", format!("{} ({}): {became}{more}", end.what, end.left_at)));
    }
    facts.extend(record.left_in_force.iter().map(|standing| ("Left in force", protection(standing, trail))));
    let block = if facts.is_empty() {
        let words = match &record.not_finished {
            None => "Nothing was left open, and no protection is in force.",
            Some(_) => "What is open stands under Not finished.",
        };
        Block::Words(words.to_owned())
    } else {
        Block::Facts(facts.into_iter().map(|(name, words)| (name.to_owned(), words)).collect())
    };
    Section::first("What is due or left open", vec![block])
}

fn protection(standing: &Standing, trail: &mut Trail) -> String {
    let since = trail.full(&standing.since, &format!("[{}]", standing.hold));
    let again = standing.lapsed.as_ref().map(|why| format!("; verify again: {why}")).unwrap_or_default();
    format!("{} (released by {}, {since}){again}", standing.what, standing.by)
}

/// How a run that is not closed was left, what protects, what is open.
pub(super) fn not_finished(record: &Record, trail: &mut Trail) -> Option<Section> {
    let open = record.not_finished.as_ref()?;
    let mut items = vec![format!("{}, {}", open.how, trail.full(&open.when, &open.how))];
    items.extend(open.reason.as_ref().map(|why| format!("why: {why}")));
    items.extend(open.left.as_ref().map(|left| format!("left: {left}")));
    items.extend(open.first.as_ref().map(|first| format!("first next time: {first}")));
    items.extend(
        open.protections
            .iter()
            .map(|standing| format!("protection in force: {}", protection(standing, trail))),
    );
    if open.protections.is_empty() {
        items.push("no protection in force".to_owned());
    }
    items.extend(open.open.iter().map(|item| format!("open: {item}")));
    Some(Section::first("Not finished", vec![Block::Items(items)]))
}
