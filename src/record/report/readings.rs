//! Readings, each attempt with its limits and its verdict, and what was found beside what was left.

use super::gauge::{drawn, gauge, trend};
use super::said::{address, amount, answer, aside, converted_answer, entered_late};
use super::trail::Trail;
use super::verdict;
use super::{listed, table};
use crate::print::{Block, Row, Section};
use crate::record::model::{Amount, Attempt, Instrument, PairEnd, Reading, Record, Second, UsedInstrument};

/// Where a reader of the text finds what it leaves out.
pub(super) const ELSEWHERE: &str = "What these say stands in the HTML, Markdown and JSON forms.";

const COLUMNS: [&str; 5] = ["Step", "Reading", "Result", "Verdict", "Entry"];

pub(super) fn section(record: &Record, trail: &mut Trail) -> Option<Section> {
    let mut rows = Vec::new();
    let mut seen: Vec<&str> = Vec::new();
    for reading in &record.readings {
        let instrument = reading.instrument.as_ref().filter(|_| !seen.contains(&reading.name.as_str()));
        seen.push(&reading.name);
        for (index, attempt) in reading.attempts.iter().enumerate() {
            rows.push(row(reading, instrument.filter(|_| index == 0), index, attempt, trail));
        }
    }
    let mut blocks = vec![verdict::rule(), table("Readings", &COLUMNS, rows)];
    blocks.extend(trends(record));
    blocks.extend(not_taken(record));
    (!record.readings.is_empty()).then(|| Section::rest("Readings", blocks))
}

fn row(
    reading: &Reading,
    new: Option<&Instrument>,
    index: usize,
    attempt: &Attempt,
    trail: &mut Trail,
) -> Row {
    let label = format!("[{}]", reading.name);
    let entry = trail.by(&attempt.when, &label, &attempt.who);
    let number = if reading.attempts.len() > 1 { format!(", attempt {}", index + 1) } else { String::new() };
    let judged = attempt.judged.as_ref();
    let mut notes: Vec<String> = Vec::new();
    for before in &attempt.corrected {
        let entry = trail.cite(&before.when, format!("{label} corrected"));
        notes.push(format!("corrected, before: {}: {} ({entry})", answer(&before.before), before.reason));
    }
    notes.extend(converted_answer(&attempt.answer));
    notes.extend(judged.map(verdict::notes).unwrap_or_default());
    notes.extend(
        reading.source.as_ref().filter(|_| index == 0).map(|source| format!("limits from: {source}")),
    );
    notes.extend(new.map(instrument));
    notes.extend(attempt.instrument.as_ref().map(|used| format!("with {}", used_words(used))));
    notes.extend(attempt.second.iter().flat_map(|other| second(other, &label, trail)));
    notes.extend(attempt.late.as_ref().map(entered_late));
    notes.extend(attempt.deviation.map(|number| format!("gone on with: deviation {number}")));
    notes.extend(attempt.set_aside.as_ref().map(|aside| {
        format!("taken again: {} ({})", aside.reason, trail.cite(&aside.when, format!("{label} set aside")))
    }));
    notes.extend(reading.from.as_ref().map(|from| format!("from {from}")));
    notes.extend(aside(&reading.place));
    Row {
        at: address(&reading.step, &reading.place),
        what: format!("{} [{}]{number}", reading.what, reading.name),
        cells: vec![answer(&attempt.answer), judged.map(verdict::words).unwrap_or_default(), entry],
        figure: drawn(&attempt.answer).zip(judged).and_then(|(result, judged)| gauge(result, judged)),
        notes,
    }
}

/// `instrument: torque wrench ±4 %`.
pub(super) fn instrument(instrument: &Instrument) -> String {
    let accuracy = instrument.accuracy.as_ref().map(|accuracy| format!(" ±{}", amount(accuracy)));
    format!("instrument: {}{}", instrument.what, accuracy.unwrap_or_default())
}

/// `TW-1, calibration due 2027-03-31`.
pub(super) fn used_words(used: &UsedInstrument) -> String {
    let overdue = used.overdue.map(|number| format!(", used overdue: deviation {number}"));
    format!("{}, calibration due {}{}", used.identity, used.due, overdue.unwrap_or_default())
}

fn second(second: &Second, label: &str, trail: &mut Trail) -> Vec<String> {
    let entry = trail.cite(&second.when, format!("{label} second"));
    let words = answer(&second.answer);
    let mut notes = vec![format!(
        "second reading, blind to the first: {words} ({entry}, {}): {}",
        second.who, second.agreement
    )];
    notes.extend(converted_answer(&second.answer));
    notes
}

/// How the results of a reading moved over passes that count.
fn trends(record: &Record) -> Vec<Block> {
    let mut blocks = Vec::new();
    let mut seen: Vec<&str> = Vec::new();
    for reading in &record.readings {
        if seen.contains(&reading.name.as_str()) {
            continue;
        }
        seen.push(&reading.name);
        let same =
            record.readings.iter().filter(|other| other.name == reading.name && other.place.aside.is_none());
        let results: Vec<&Amount> = same.filter_map(|other| drawn(&other.attempts.last()?.answer)).collect();
        if let Some(figure) = trend(&results) {
            blocks
                .push(Block::Figure(format!("{} [{}], time after time", reading.what, reading.name), figure));
        }
    }
    blocks
}

/// In one sentence: they are many, and there is nothing to say of them.
fn not_taken(record: &Record) -> Option<Block> {
    let none = record.readings.iter().filter(|reading| reading.attempts.is_empty());
    let told = none.map(|reading| {
        let more = reading.source.iter().map(|source| format!("limits from: {source}"));
        let more = more
            .chain(reading.instrument.as_ref().map(instrument))
            .chain(reading.from.as_ref().map(|from| format!("from {from}")))
            .chain(aside(&reading.place));
        let more: Vec<String> = more.collect();
        let more = if more.is_empty() { String::new() } else { format!(" ({})", more.join("; ")) };
        format!("{} {} [{}]{more}", address(&reading.step, &reading.place), reading.what, reading.name)
    });
    let told: Vec<String> = told.collect();
    if told.is_empty() {
        return None;
    }
    let short = record.readings.iter().filter(|reading| reading.attempts.is_empty());
    let short = short.map(|reading| format!("{} [{}]", address(&reading.step, &reading.place), reading.name));
    let short = format!("Not taken: {}. {ELSEWHERE}", short.collect::<Vec<_>>().join(", "));
    let full = Box::new(Block::Words(format!("Not taken: {}.", told.join("; "))));
    Some(Block::Long { full, short: vec![Block::Words(short)] })
}

/// What was found before adjustments and what was left, side by side.
pub(super) fn pairs(record: &Record, _: &mut Trail) -> Option<Section> {
    let end = |end: Option<&PairEnd>| {
        end.map_or_else(|| "not read".to_owned(), |end| format!("{} ({})", end.shown, end.verdict))
    };
    let rows = record.pairs.iter().map(|pair| Row {
        at: pair.what.clone(),
        what: pair.of.clone().unwrap_or_default(),
        cells: vec![
            format!("as found {}", end(pair.as_found.as_ref())),
            format!("as left {}", end(pair.as_left.as_ref())),
        ],
        ..Row::default()
    });
    listed("As found and as left", &["Reading", "Of", "As found", "As left"], rows.collect())
}
