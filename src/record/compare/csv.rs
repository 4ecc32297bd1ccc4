//! A comparison as rows: RFC 4180.

use super::model::{Change, Comparison, End, Meaning};
use crate::print::{csv_row, csv_words};
use crate::record::model::Amount;

const HEAD: [&str; 26] = [
    "sort",
    "name",
    "what",
    "of",
    "before_run",
    "before_step",
    "before",
    "before_number",
    "before_unit",
    "before_verdict",
    "before_instrument",
    "before_accuracy",
    "before_expanded",
    "after_run",
    "after_step",
    "after",
    "after_number",
    "after_unit",
    "after_verdict",
    "after_instrument",
    "after_accuracy",
    "after_expanded",
    "change",
    "change_unit",
    "en",
    "meaning",
];

/// A row for each thing that stands in both records, also for those that are the same, below a row of names.
pub fn to_csv(compared: &Comparison) -> String {
    let sorts = [
        ("reading", &compared.readings),
        ("computed value", &compared.values),
        ("fastener", &compared.fasteners),
        ("vehicle value", &compared.vehicle_values),
        ("step", &compared.steps),
    ];
    let rows = sorts
        .into_iter()
        .flat_map(|(sort, changes)| changes.iter().map(move |change| csv_row(row(compared, sort, change))));
    std::iter::once(csv_row(HEAD.map(str::to_owned))).chain(rows).collect()
}

fn row(compared: &Comparison, sort: &str, change: &Change) -> Vec<String> {
    let number = |amount: Option<&Amount>| amount.map(|amount| amount.number.clone()).unwrap_or_default();
    let unit = |amount: Option<&Amount>| amount.map(|amount| csv_words(&amount.unit)).unwrap_or_default();
    let (en, meaning) = match &change.meaning {
        Meaning::None if change.is_same => (String::new(), "the same".to_owned()),
        Meaning::MoreThanTheInstruments { en } => {
            (en.clone(), "more than the instruments can explain".to_owned())
        }
        Meaning::MaybeTheInstruments { en } => (en.clone(), "may be the instruments alone".to_owned()),
        other => (String::new(), other.words()),
    };
    let mut row = vec![
        sort.to_owned(),
        csv_words(&change.name),
        csv_words(&change.what),
        csv_words(change.of.as_deref().unwrap_or_default()),
    ];
    row.extend(side(&compared.before.run, &change.before));
    row.extend(side(&compared.after.run, &change.after));
    row.extend([number(change.change.as_ref()), unit(change.change.as_ref()), en, meaning]);
    row
}

fn side(run: &str, end: &End) -> [String; 9] {
    let amount = end.amount.as_ref();
    let said = |text: Option<&String>| text.map(|text| csv_words(text)).unwrap_or_default();
    let shown = |amount: Option<&Amount>| amount.map(|amount| csv_words(&amount.shown)).unwrap_or_default();
    [
        csv_words(run),
        csv_words(&end.step),
        csv_words(&end.shown),
        amount.map(|amount| amount.number.clone()).unwrap_or_default(),
        said(amount.map(|amount| &amount.unit)),
        said(end.verdict.as_ref()),
        said(end.identity.as_ref().or(end.instrument.as_ref())),
        shown(end.accuracy.as_ref()),
        shown(end.expanded.as_ref()),
    ]
}
