//! Quantities and answers on their way to the disk.

use super::model::{Amount, Answer, Conversion, File, TypedAmount};
use crate::quantity::{Entry, Num, Quantity, Unit};
use crate::run::Answered;

pub(crate) fn amount(quantity: &Quantity) -> Amount {
    Amount {
        number: quantity.number.to_exact_text(),
        unit: quantity.unit.symbol().to_owned(),
        shown: quantity.to_string(),
    }
}

/// Read back from the disk; nothing where this version does not know its unit.
pub(crate) fn quantity(amount: &Amount) -> Option<Quantity> {
    Quantity::from_exact_text(format!("{} {}", amount.number, amount.unit).trim_end())
}

pub(super) fn typed(entry: &Entry) -> TypedAmount {
    let differs = entry.typed.unit.symbol() != entry.asked.unit.symbol();
    TypedAmount {
        text: entry.text.clone(),
        typed: amount(&entry.typed),
        asked: differs.then(|| conversion(&entry.typed.unit, &entry.asked)),
    }
}

pub(super) fn answer(answered: &Answered) -> Answer {
    match answered {
        Answered::Quantity(entry) => Answer::Quantity(typed(entry)),
        Answered::Choice(choice) => Answer::Choice(choice.clone()),
        Answered::Text(text) => Answer::Text(text.clone()),
        Answered::Instead(words) => Answer::Instead(words.clone()),
        Answered::Date(date) => Answer::Date(date.to_string()),
        Answered::List(items) => Answer::List(items.clone()),
        Answered::File(file) => Answer::File(File {
            name: file.name.clone(),
            size: file.size,
            sha256: file.sha256.clone(),
            kept_as: file.stored_as(),
        }),
    }
}

/// As it is said in a sentence: what was typed, and what it is in the unit that was asked for.
pub(crate) fn said(answer: &Answer) -> String {
    match answer {
        Answer::Quantity(TypedAmount { typed, asked: Some(asked), .. }) => {
            format!("{} ({})", typed.shown, asked.amount.shown)
        }
        Answer::Quantity(TypedAmount { typed, asked: None, .. }) => typed.shown.clone(),
        Answer::Choice(text) | Answer::Text(text) | Answer::Date(text) | Answer::Instead(text) => {
            text.clone()
        }
        Answer::List(items) => items.join(", "),
        Answer::File(file) => file.name.clone(),
    }
}

fn conversion(from: &Unit, asked: &Quantity) -> Conversion {
    let to = &asked.unit;
    // No unit has a factor of zero.
    let factor = from.factor().checked_div(to.factor()).unwrap_or(Num::ONE);
    let on_a_scale = from.zero().or(to.zero()).is_some();
    let zero = |unit: &Unit| unit.zero().unwrap_or(Num::ZERO);
    Conversion {
        amount: amount(asked),
        factor: factor.to_exact_text(),
        offset: on_a_scale.then(|| (zero(from) * factor - zero(to)).to_exact_text()),
    }
}
