//! The readings of a record as rows: comma-separated values as RFC 4180 describes them.

use super::model::{Answer, Attempt, Instrument, Limit, Reading, Record};
use crate::print::{csv_row, csv_words};

const HEAD: [&str; 27] = [
    "run",
    "procedure",
    "revision",
    "vehicle",
    "step",
    "pass",
    "reading",
    "what",
    "attempt",
    "typed",
    "number",
    "unit",
    "answer",
    "verdict",
    "words",
    "lower",
    "lower_good",
    "upper",
    "upper_good",
    "limit_unit",
    "instrument",
    "accuracy",
    "who",
    "entry",
    "time",
    "deviation",
    "remark",
];

/// One row for each attempt at a reading, in order, below a row of names; one for a reading that was not taken.
///
/// `number` is the exact number in `unit`, `lower` and `upper` are in `limit_unit`; a fraction without an end stands as
/// `1/3`. Lines end in CR and LF, quotes are doubled. A text that a spreadsheet would take for a formula has a `'` in front.
pub fn to_csv(record: &Record) -> String {
    head() + &rows(record)
}

/// The row of names alone, for the rows of several records in one table.
pub fn head() -> String {
    csv_row(HEAD.map(str::to_owned))
}

/// The rows of one record.
pub fn rows(record: &Record) -> String {
    let mut out = String::new();
    for reading in &record.readings {
        if reading.attempts.is_empty() {
            out.push_str(&csv_row(row(record, reading, None)));
        }
        for (index, attempt) in reading.attempts.iter().enumerate() {
            out.push_str(&csv_row(row(record, reading, Some((index + 1, attempt)))));
        }
    }
    out
}

fn row(record: &Record, reading: &Reading, taken: Option<(usize, &Attempt)>) -> impl Iterator<Item = String> {
    let attempt = taken.map(|(_, attempt)| attempt);
    let (typed, number, unit) = amount(attempt);
    let judged = attempt.and_then(|attempt| attempt.judged.as_ref());
    let said = |text: Option<&String>| text.map(|text| csv_words(text)).unwrap_or_default();
    let (lower, upper) =
        (judged.and_then(|judged| judged.lower.as_ref()), judged.and_then(|judged| judged.upper.as_ref()));
    let bound = |limit: Option<&Limit>| limit.map(|limit| limit.amount.number.clone()).unwrap_or_default();
    let good = |limit: Option<&Limit>| limit.map(|limit| limit.inclusive.to_string()).unwrap_or_default();
    let instrument = reading.instrument.as_ref();
    [
        csv_words(&record.run),
        csv_words(&record.procedure.id),
        csv_words(&record.procedure.revision),
        said(record.vehicle.description.as_ref()),
        csv_words(&reading.step),
        said(reading.place.pass.as_ref()),
        csv_words(&reading.name),
        csv_words(&reading.what),
        taken.map(|(number, _)| number.to_string()).unwrap_or_default(),
        typed,
        number,
        unit,
        attempt.map_or_else(
            || "not taken".to_owned(),
            |attempt| csv_words(&super::report::answer(&attempt.answer)),
        ),
        said(judged.map(|judged| &judged.verdict)),
        said(judged.map(|judged| &judged.words)),
        bound(lower),
        good(lower),
        bound(upper),
        good(upper),
        said(lower.or(upper).map(|limit| &limit.amount.unit)),
        said(instrument.map(|instrument| &instrument.what)),
        instrument.and_then(accuracy).unwrap_or_default(),
        attempt.map(|attempt| csv_words(&attempt.who.join(" and "))).unwrap_or_default(),
        attempt.map(|attempt| attempt.when.entry.to_string()).unwrap_or_default(),
        said(attempt.map(|attempt| &attempt.when.at)),
        attempt.and_then(|attempt| attempt.deviation).map(|number| number.to_string()).unwrap_or_default(),
        remark(reading, attempt),
    ]
    .into_iter()
}

/// What was typed, its number, its unit.
fn amount(attempt: Option<&Attempt>) -> (String, String, String) {
    match attempt.map(|attempt| &attempt.answer) {
        Some(Answer::Quantity(quantity)) => {
            let amount = quantity.asked.as_ref().map_or(&quantity.typed, |asked| &asked.amount);
            (csv_words(&quantity.text), amount.number.clone(), csv_words(&amount.unit))
        }
        _ => Default::default(),
    }
}

fn accuracy(instrument: &Instrument) -> Option<String> {
    instrument.accuracy.as_ref().map(|accuracy| csv_words(&accuracy.shown))
}

/// Why it does not count, or why it was taken again.
fn remark(reading: &Reading, attempt: Option<&Attempt>) -> String {
    let aside = reading.place.aside.as_ref().map(ToString::to_string);
    let again = attempt.and_then(|attempt| attempt.set_aside.as_ref());
    let again = again.map(|aside| format!("taken again: {}", aside.reason));
    csv_words(&aside.into_iter().chain(again).collect::<Vec<_>>().join("; "))
}
