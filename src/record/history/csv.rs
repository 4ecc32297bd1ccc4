//! A history as rows: RFC 4180.

use super::model::{History, Taken};
use crate::print::{csv_row, csv_words};
use crate::record::amounts::quantity;
use crate::record::model::{Amount, Limit};

const HEAD: [&str; 26] = [
    "name",
    "kind",
    "vehicle",
    "identification",
    "time",
    "odometer",
    "odometer_unit",
    "run",
    "closed",
    "procedure",
    "step",
    "pass",
    "occasion",
    "answer",
    "number",
    "unit",
    "number_in_unit",
    "in_unit",
    "lower",
    "upper",
    "limit_unit",
    "verdict",
    "instrument",
    "trace",
    "aside",
    "entry",
];

/// A row for each time that it was taken, the oldest first, below a row of names.
pub fn to_csv(history: &History) -> String {
    let rows = history.taken.iter().map(|taken| csv_row(row(history, taken)));
    std::iter::once(csv_row(HEAD.map(str::to_owned))).chain(rows).collect()
}

/// The number for a spreadsheet, which knows no fractions; one that ends as a decimal stays exact.
fn decimal(amount: &Amount) -> String {
    let number = quantity(amount).filter(|_| amount.number.contains('/'));
    number.map_or_else(|| amount.number.clone(), |quantity| quantity.number.to_f64().to_string())
}

fn row(history: &History, taken: &Taken) -> [String; 26] {
    let said = |text: Option<&String>| text.map(|text| csv_words(text)).unwrap_or_default();
    let number = |amount: Option<&Amount>| amount.map(|amount| amount.number.clone()).unwrap_or_default();
    let unit = |amount: Option<&Amount>| said(amount.map(|amount| &amount.unit));
    let bound = |limit: &Option<Limit>| number(limit.as_ref().map(|limit| &limit.amount));
    let in_unit = taken.in_unit.as_ref().or(taken.amount.as_ref());
    [
        csv_words(&history.name),
        csv_words(&taken.kind),
        said(history.vehicle.as_ref()),
        said(history.identification.as_ref()),
        csv_words(&taken.at),
        number(taken.odometer.as_ref()),
        unit(taken.odometer.as_ref()),
        csv_words(&taken.run),
        taken.closed.to_string(),
        csv_words(&taken.procedure),
        said(taken.step.as_ref()),
        said(taken.pass.as_ref()),
        said(taken.occasion.as_ref()),
        csv_words(&taken.shown),
        number(taken.amount.as_ref()),
        unit(taken.amount.as_ref()),
        in_unit.map(decimal).unwrap_or_default(),
        unit(in_unit),
        bound(&taken.lower),
        bound(&taken.upper),
        unit(taken.lower.as_ref().or(taken.upper.as_ref()).map(|limit| &limit.amount)),
        said(taken.verdict.as_ref()),
        said(taken.identity.as_ref().or(taken.instrument.as_ref())),
        said(taken.trace.as_ref()),
        said(taken.aside.as_ref()),
        taken.entry.map(|entry| entry.to_string()).unwrap_or_default(),
    ]
}
