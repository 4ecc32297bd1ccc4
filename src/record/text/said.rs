//! Times, amounts and answers in words.

use crate::record::model::{Amount, Answer, Conversion, Moment, TypedAmount};

/// `2026-11-21 18:30:05 +01:00, entry 12`: to the second; the journal at the end has the rest.
pub(super) fn moment(moment: &Moment) -> String {
    format!("{}, entry {}", time(&moment.at), moment.entry)
}

/// A time for people: `2026-11-21 18:30:05 +01:00`.
pub(super) fn time(at: &str) -> String {
    let (day, rest) = at.split_once('T').unwrap_or((at, ""));
    let clock = rest.get(..8).unwrap_or(rest);
    let offset = rest
        .find(['+', '-', 'Z'])
        .and_then(|place| rest.get(place..))
        .unwrap_or_default();
    format!("{day} {clock} {offset}").trim_end().to_owned()
}

/// As it is shown, and exactly where that says more.
pub(super) fn amount(amount: &Amount) -> String {
    let plain = format!("{} {}", amount.number, amount.unit);
    if amount.shown.starts_with(&amount.number) {
        return amount.shown.clone();
    }
    format!("{} (exactly {})", amount.shown, plain.trim_end())
}

/// What was typed, and what it is.
pub(super) fn typed(typed: &TypedAmount) -> String {
    let converted = typed.asked.as_ref().map(conversion).unwrap_or_default();
    format!("{} (typed \"{}\"){converted}", amount(&typed.typed), typed.text)
}

fn conversion(conversion: &Conversion) -> String {
    let offset = conversion
        .offset
        .as_ref()
        .map(|offset| format!(" plus {offset}"))
        .unwrap_or_default();
    format!(
        " = {}, times {}{offset}",
        amount(&conversion.amount),
        conversion.factor
    )
}

pub(super) fn answer(answer: &Answer) -> String {
    match answer {
        Answer::Quantity(quantity) => typed(quantity),
        Answer::Choice(text) | Answer::Text(text) | Answer::Date(text) => text.clone(),
    }
}

/// Names of people, or that nobody is named.
pub(super) fn people(names: &[String]) -> String {
    if names.is_empty() {
        "nobody named".to_owned()
    } else {
        names.join(" and ")
    }
}
