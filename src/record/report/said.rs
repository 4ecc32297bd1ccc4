//! Times, amounts and answers in words.

use crate::quantity::Num;
use crate::record::model::{Amount, Answer, Conversion, Late, Place, TypedAmount};

/// Where something stands: `4.3.2, pass 2 of 3 (left)`.
pub(crate) fn address(step: &str, place: &Place) -> String {
    let pass = place.pass.as_ref().map(|pass| format!(", {pass}"));
    format!("{step}{}", pass.unwrap_or_default())
}

/// That what stands there does not count, and why; nothing where it does.
pub(super) fn aside(place: &Place) -> Option<String> {
    place.aside.as_ref().map(|aside| format!("{}: {}", aside.how.to_uppercase(), aside.reason))
}

/// A time for people: `2026-11-21 18:30:05 +01:00`.
pub(crate) fn time(at: &str) -> String {
    let (day, rest) = at.split_once('T').unwrap_or((at, ""));
    let clock = rest.get(..8).unwrap_or(rest);
    let offset = rest.find(['+', '-', 'Z']).and_then(|place| rest.get(place..)).unwrap_or_default();
    format!("{day} {clock} {offset}").trim_end().to_owned()
}

/// As it is shown, and exactly where that says more to a reader. A fraction without an end stands in the data only.
pub(crate) fn amount(amount: &Amount) -> String {
    let plain = format!("{} {}", amount.number, amount.unit);
    if amount.shown.starts_with(&amount.number) || amount.number.contains(['/', '~']) {
        return amount.shown.clone();
    }
    format!("{} (exactly {})", amount.shown, plain.trim_end())
}

/// What it is, and what was typed where that says more.
pub(super) fn typed(typed: &TypedAmount) -> String {
    if typed.text == amount(&typed.typed) || typed.text == typed.typed.number {
        return amount(&typed.typed);
    }
    format!("{} (typed \"{}\")", amount(&typed.typed), typed.text)
}

/// The answer in the unit that was asked for, where it was typed in another.
pub(super) fn converted(answer: &TypedAmount) -> Option<String> {
    let Conversion { amount: asked, factor, offset } = answer.asked.as_ref()?;
    let offset = offset.as_deref().map(shifted).unwrap_or_default();
    Some(format!("converted: {}, the number times {}{offset}", amount(asked), decimal(factor)))
}

/// What is added or taken away between two scales: ` less 17.77777778`.
fn shifted(offset: &str) -> String {
    match offset.strip_prefix('-') {
        Some(less) => format!(" less {}", decimal(less)),
        None => format!(" plus {}", decimal(offset)),
    }
}

/// A factor as a decimal: exact where it has an end, else to ten digits.
fn decimal(factor: &str) -> String {
    let number = Num::from_exact_text(factor).filter(|_| factor.contains('/'));
    number.map_or_else(|| factor.to_owned(), |number| number.shown_with(10))
}

pub(crate) fn answer(answer: &Answer) -> String {
    match answer {
        Answer::Quantity(quantity) => typed(quantity),
        Answer::Choice(text) | Answer::Text(text) | Answer::Date(text) => text.clone(),
        Answer::Instead(words) => format!("{words} (named outcome)"),
        Answer::List(items) => items.join(", "),
        Answer::File(file) => {
            format!(
                "{}, {} bytes, kept as files/{}, SHA-256 {}",
                file.name, file.size, file.kept_as, file.sha256
            )
        }
    }
}

/// Names of people, or that nobody is named.
pub(super) fn people(names: &[String]) -> String {
    if names.is_empty() { "nobody named".to_owned() } else { names.join(" and ") }
}

/// The same for any answer.
pub(super) fn converted_answer(answer: &Answer) -> Option<String> {
    match answer {
        Answer::Quantity(quantity) => converted(quantity),
        Answer::Choice(_)
        | Answer::Text(_)
        | Answer::Date(_)
        | Answer::List(_)
        | Answer::File(_)
        | Answer::Instead(_) => None,
    }
}

/// When something was really done, and why it was entered later: `done 2026-11-21 18:05:00 +01:00, entered late: from paper`.
pub(super) fn entered_late(late: &Late) -> String {
    format!("done {}, entered late: {}", time(&late.done), late.reason)
}
