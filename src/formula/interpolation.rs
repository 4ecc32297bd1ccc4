//! A value between two known ones. It stands with the arithmetic, since any two sorts of quantity go.

use crate::quantity::Num;
use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape, Sort};

pub(super) const INTERPOLATED: Function = Function {
    name: "interpolated",
    summary: "the value between two marks, on the straight line from one to the other",
    parameters: &[
        Parameter::new("at", Sort::Same, "where the value is asked for, between the two marks"),
        Parameter::new("from", Sort::Same, "where one mark stands"),
        Parameter::new("to", Sort::Same, "where the other mark stands"),
        Parameter::new("at_from", Sort::Other, "the value at the one"),
        Parameter::new("at_to", Sort::Other, "the value at the other"),
    ],
    result: Shape::Other,
    call: row,
    assumes: &["between the two marks the value changes evenly; beyond them nothing is known"],
    source: "linear interpolation",
    example: "interpolated(50 °C, from = 20 °C, to = 80 °C, at_from = 10 mm, at_to = 40 mm)",
};

/// A mark: where it stands, and the value there.
#[derive(Clone, Copy, Debug)]
struct Mark {
    place: Num,
    value: Num,
}

/// The value at a place between two marks; exact. `None` beyond them, and when both stand in one place.
fn interpolated(at: Num, from: Mark, to: Mark) -> Option<Num> {
    if at < from.place.min(to.place) || at > from.place.max(to.place) {
        return None;
    }
    let share = (at - from.place).checked_div(to.place - from.place)?;
    Some(from.value + (to.value - from.value) * share)
}

fn row(given: &Given<'_>) -> Result<Answer, Refusal> {
    let mark = |place, value| -> Result<Mark, Refusal> {
        Ok(Mark { place: given.number(place)?, value: given.number(value)? })
    };
    let (from, to) = (mark("from", "at_from")?, mark("to", "at_to")?);
    if from.place == to.place {
        return Err(Refusal::of("to", "must stand in another place than the first mark"));
    }
    interpolated(given.number("at")?, from, to)
        .map(Answer::Number)
        .ok_or_else(|| Refusal::of("at", "must lie between the two marks: beyond them nothing is known"))
}
