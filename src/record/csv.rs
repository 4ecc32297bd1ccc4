//! The readings of a record as rows: comma-separated values as RFC 4180 describes them.

use super::model::{Answer, Attempt, Instrument, Limit, Reading, Record};
use crate::source::clean;

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
    let mut out = String::new();
    write(&mut out, HEAD.map(str::to_owned).into_iter());
    for reading in &record.readings {
        if reading.attempts.is_empty() {
            write(&mut out, row(record, reading, None));
        }
        for (index, attempt) in reading.attempts.iter().enumerate() {
            write(&mut out, row(record, reading, Some((index + 1, attempt))));
        }
    }
    out
}

fn row(record: &Record, reading: &Reading, taken: Option<(usize, &Attempt)>) -> impl Iterator<Item = String> {
    let attempt = taken.map(|(_, attempt)| attempt);
    let (typed, number, unit) = amount(attempt);
    let judged = attempt.and_then(|attempt| attempt.judged.as_ref());
    let said = |text: Option<&String>| text.map(|text| harmless(text)).unwrap_or_default();
    let (lower, upper) =
        (judged.and_then(|judged| judged.lower.as_ref()), judged.and_then(|judged| judged.upper.as_ref()));
    let bound = |limit: Option<&Limit>| limit.map(|limit| limit.amount.number.clone()).unwrap_or_default();
    let good = |limit: Option<&Limit>| limit.map(|limit| limit.inclusive.to_string()).unwrap_or_default();
    let instrument = reading.instrument.as_ref();
    [
        harmless(&record.run),
        harmless(&record.procedure.id),
        harmless(&record.procedure.revision),
        said(record.vehicle.description.as_ref()),
        harmless(&reading.step),
        said(reading.place.pass.as_ref()),
        harmless(&reading.name),
        harmless(&reading.what),
        taken.map(|(number, _)| number.to_string()).unwrap_or_default(),
        typed,
        number,
        unit,
        attempt.map_or_else(
            || "not taken".to_owned(),
            |attempt| harmless(&super::report::answer(&attempt.answer)),
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
        attempt.map(|attempt| harmless(&attempt.who.join(" and "))).unwrap_or_default(),
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
            (harmless(&quantity.text), amount.number.clone(), harmless(&amount.unit))
        }
        _ => Default::default(),
    }
}

fn accuracy(instrument: &Instrument) -> Option<String> {
    instrument.accuracy.as_ref().map(|accuracy| harmless(&accuracy.shown))
}

/// Why it does not count, or why it was taken again.
fn remark(reading: &Reading, attempt: Option<&Attempt>) -> String {
    let aside = reading.place.aside.as_ref().map(|aside| format!("{}: {}", aside.how, aside.reason));
    let again = attempt.and_then(|attempt| attempt.set_aside.as_ref());
    let again = again.map(|aside| format!("taken again: {}", aside.reason));
    harmless(&aside.into_iter().chain(again).collect::<Vec<_>>().join("; "))
}

/// Without control characters, and never the beginning of a formula; a negative number is none.
fn harmless(text: &str) -> String {
    let text = clean(text);
    let plain = |letter: char| letter.is_alphanumeric() || " .,:°%·/²³".contains(letter);
    let is_number = text.strip_prefix(['-', '+']).is_some_and(|rest| {
        rest.starts_with(|first: char| first.is_ascii_digit()) && rest.chars().all(plain)
    });
    if text.starts_with(['=', '+', '-', '@', '\t']) && !is_number {
        return format!("'{text}");
    }
    text.into_owned()
}

/// A row: each field that needs it between quotes.
fn write(out: &mut String, fields: impl Iterator<Item = String>) {
    for (index, field) in fields.enumerate() {
        if index > 0 {
            out.push(',');
        }
        if field.contains([',', '"', '\n', '\r']) {
            out.push('"');
            out.push_str(&field.replace('"', "\"\""));
            out.push('"');
        } else {
            out.push_str(&field);
        }
    }
    out.push_str("\r\n");
}
