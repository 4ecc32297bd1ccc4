//! A single quantity, typed as at a reading: `1:30 min`, `0,5 L`, `5 ft 3 in`, and what it is as a formula.

use crate::formula::Formula;
use crate::quantity::{EntryProblem, Quantity, Unit, parse_typed, units};
use crate::terminal::Line;

/// What was typed, and how it was understood.
pub(super) struct Typed {
    text: String,
    quantity: Quantity,
    /// The same as a formula.
    pub(super) formula: String,
}

/// What no formula is and yet a quantity that a person types, `in UNIT` after it or not; none where it is a formula, or
/// was meant as one. A problem where a comma can be read in two ways, or a time is not written as one.
pub(super) fn as_typed(text: &str) -> Result<Option<Typed>, EntryProblem> {
    if Formula::parse(text, 0).is_ok() {
        return Ok(None);
    }
    let (front, unit) = match text.rsplit_once(" in ") {
        Some((front, unit)) if Unit::parse(unit).is_ok() => (front, Some(unit)),
        _ => (text, None),
    };
    let quantity = match parse_typed(front) {
        Ok(quantity) => quantity,
        Err(problem) if is_no_formula(front, &problem) => return Err(problem),
        Err(_) => return Ok(None),
    };
    let asked = unit.map(|unit| format!(" in {unit}")).unwrap_or_default();
    let formula = format!("{} {}{asked}", quantity.number.shown(), without_blanks(&quantity.unit));
    Ok(Some(Typed { text: front.trim().to_owned(), quantity, formula }))
}

/// Whether the problem is of a quantity, and would not be told better of a formula.
fn is_no_formula(front: &str, problem: &EntryProblem) -> bool {
    match problem {
        EntryProblem::WhichMeant { .. } => true,
        EntryProblem::NotANumber { .. } => front.contains(':'),
        _ => false,
    }
}

/// A spelling of the unit that can stand in a formula.
fn without_blanks(unit: &Unit) -> &str {
    let row = units().iter().find(|(row, _)| row.symbol == unit.symbol());
    let mut names =
        row.into_iter().flat_map(|(row, _)| std::iter::once(row.symbol).chain(row.aliases.iter().copied()));
    names.find(|name| !name.contains(' ')).unwrap_or(unit.symbol())
}

impl Typed {
    /// What was typed and what it was taken for.
    pub(super) fn line(&self) -> Line {
        Line::plain(format!("{}: {}, {}", self.text, self.quantity, self.quantity.unit.measures()))
    }
}
