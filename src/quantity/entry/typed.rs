//! What a person typed, read in any unit that fits, and turned into the unit that was asked for.

use super::clock::clock;
use super::{EntryProblem, parts, spelling};
use crate::quantity::{Kind, Quantity, Unit, UnknownUnit, units, with_unit};

/// A longer text is refused unread.
const LONGEST: usize = 100;

/// What a person typed and what it was taken for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// As it was typed.
    pub text: String,
    /// The number in the unit it was typed in; a time with colons in seconds.
    pub typed: Quantity,
    /// The same in the unit that was asked for, exactly.
    pub asked: Quantity,
}

/// Reads what a person typed where a quantity in the unit `asked` is wanted.
///
/// Any unit of the same thing will do and a bare number takes the asked one. Fractions (`5 1/2 qt`, `3/16"`),
/// times (`1:30 min`), several units (`5 ft 3 in`), decimal commas and marks between thousands are read; where a
/// comma can be either, the answer is [`EntryProblem::WhichMeant`]. Degrees typed where a temperature
/// difference is wanted are a difference.
///
/// ```
/// use bayhand::quantity::{Num, Unit, parse_entry};
///
/// let entry = parse_entry("25.4 mm", &Unit::parse("in").unwrap()).unwrap();
/// assert_eq!(entry.asked.number, Num::ONE);
/// assert_eq!(entry.typed.to_string(), "25.4 mm");
/// ```
pub fn parse_entry(text: &str, asked: &Unit) -> Result<Entry, EntryProblem> {
    if text.trim().is_empty() {
        return Err(EntryProblem::Empty);
    }
    if text.len() > LONGEST {
        return Err(EntryProblem::TooLarge);
    }
    let plain = spelling::plain(text);
    let mut typed = match clock(&plain, asked) {
        Some(time) => time.map_err(|trouble| trouble.with(text))?,
        None => parts::quantity(&plain, asked).map_err(|problem| fitting(problem, asked))?,
    };
    if asked.kind() == Kind::Difference && typed.unit.dimension() == asked.dimension() {
        typed.unit = typed.unit.as_difference();
    }
    let in_asked = typed.in_unit(asked).map_err(|_| wrong_dimension(&typed.unit, asked))?;
    Ok(Entry { text: text.to_owned(), typed, asked: in_asked })
}

/// Reads what a person types, as [`parse_entry`] does, where nothing is known of what is wanted: the quantity is in the
/// unit that was typed, a time with colons in seconds.
///
/// ```
/// use bayhand::quantity::parse_typed;
///
/// assert_eq!(parse_typed("0,5 L").unwrap().to_string(), "0.5 L");
/// assert_eq!(parse_typed("1:30 min").unwrap().to_string(), "90 s");
/// ```
pub fn parse_typed(text: &str) -> Result<Quantity, EntryProblem> {
    if text.trim().is_empty() {
        return Err(EntryProblem::Empty);
    }
    if text.len() > LONGEST {
        return Err(EntryProblem::TooLarge);
    }
    let plain = spelling::plain(text);
    match clock(&plain, &Unit::one()) {
        Some(time) => time.map_err(|trouble| trouble.with(text)),
        None => parts::quantity(&plain, &Unit::one()),
    }
}

impl Entry {
    /// As it was typed, with the asked unit where none was typed: `1.00 qt`.
    pub fn with_unit(&self) -> String {
        let text = self.text.trim();
        let is_bare = text.chars().all(|letter| letter.is_numeric() || " .,/+-\u{2212}".contains(letter));
        if is_bare { with_unit(text, self.asked.unit.symbol()) } else { text.to_owned() }
    }
}

/// Only a unit of what is asked for is proposed.
fn fitting(problem: EntryProblem, asked: &Unit) -> EntryProblem {
    let EntryProblem::UnknownUnit(unknown) = problem else { return problem };
    let fits = |text: &String| Unit::parse(text).is_ok_and(|unit| unit.dimension() == asked.dimension());
    EntryProblem::UnknownUnit(UnknownUnit { did_you_mean: unknown.did_you_mean.filter(fits), ..unknown })
}

fn wrong_dimension(typed: &Unit, asked: &Unit) -> EntryProblem {
    EntryProblem::WrongDimension {
        typed: typed.clone(),
        asked: asked.clone(),
        perhaps: perhaps(typed.symbol(), asked),
    }
}

/// A unit that fits and whose name is the typed one and little more: `fl oz` for `oz`, `lbf` for `lb`.
fn perhaps(typed: &str, asked: &Unit) -> Option<String> {
    let is_near = |symbol: &str| {
        let rest = symbol.strip_prefix(typed).or_else(|| symbol.strip_suffix(typed));
        rest.is_some_and(|rest| rest == "f" || rest == "fl ")
    };
    let found = units().iter().find(|(row, unit)| unit.fits(asked) && is_near(row.symbol));
    found.map(|(row, _)| row.symbol.to_owned())
}
