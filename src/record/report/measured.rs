//! What was measured, in a few lines: how many readings, and those that were judged by a limit.

use super::said::{address, amount};
use super::verdict;
use crate::print::{Block, Section};
use crate::record::model::{Amount, Answer, Judged, Place, Record};

/// More than these stand under their own heading only.
const MOST: usize = 12;

pub(super) fn section(record: &Record) -> Section {
    let attempts = || record.readings.iter().flat_map(|reading| &reading.attempts);
    let verdicts = || attempts().filter_map(|attempt| attempt.judged.as_ref());
    let passed = verdicts().filter(|judged| judged.verdict.ends_with("pass")).count();
    let failed = verdicts().filter(|judged| verdict::fails(judged)).count();
    let taken = attempts().count();
    let words = format!(
        "Readings taken: {taken}; {passed} passed, {failed} failed, {} had no limit to meet.",
        taken - passed - failed
    );
    let items = values(record).chain(limited(record)).collect::<Vec<_>>();
    let more = items.len().saturating_sub(MOST);
    let mut items: Vec<String> = items.into_iter().take(MOST).collect();
    if more > 0 {
        items.push(format!("... and {more} more, under Readings."));
    }
    Section::first("What was measured", vec![Block::Words(words), Block::Items(items)])
}

/// What was worked out and judged: it is what the readings were taken for.
fn values(record: &Record) -> impl Iterator<Item = String> {
    record.values.iter().filter(|value| value.place.aside.is_none()).filter_map(|value| {
        let result = value.result.as_ref()?;
        has_limit(&result.judged)?;
        let shown = result.result.as_ref().map_or_else(|| "no result".to_owned(), amount);
        Some(line(&value.what, &value.step, &value.place, &shown, &result.judged))
    })
}

/// What was read last where there is a limit in numbers.
fn limited(record: &Record) -> impl Iterator<Item = String> {
    record.readings.iter().filter(|reading| reading.place.aside.is_none()).filter_map(|reading| {
        let attempt = reading.attempts.last()?;
        let judged = attempt.judged.as_ref()?;
        has_limit(judged)?;
        let Answer::Quantity(quantity) = &attempt.answer else { return None };
        Some(line(&reading.what, &reading.step, &reading.place, &shown(&quantity.typed), judged))
    })
}

/// A limit of nothing, as on a gauge that has to be empty, says little to a stranger.
fn has_limit(judged: &Judged) -> Option<()> {
    let mut limits = judged.lower.iter().chain(&judged.upper);
    limits.any(|limit| limit.amount.number != "0").then_some(())
}

fn shown(amount: &Amount) -> String {
    amount.shown.clone()
}

fn line(what: &str, step: &str, place: &Place, shown: &str, judged: &Judged) -> String {
    format!("{} {what}: {shown}; {}", address(step, place), verdict::words(judged))
}
