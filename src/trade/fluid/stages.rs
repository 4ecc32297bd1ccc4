//! Filling in stages: what came out, what went in, and what is still to add, before the first start and after it.

use crate::quantity::Num;
use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape};

/// What came out of a unit and what has gone back in, all in one unit of volume.
///
/// ```
/// use bayhand::trade::fluid::Stages;
///
/// let stages = Stages { drained: 4.into(), poured: 2.into(), spilled: 0.into(), prefilled: 1.into(), filled: 3.into() };
/// assert_eq!(stages.to_add(), 2.into());
/// assert_eq!(stages.to_add_before_start(4.into()), 1.into());
/// assert_eq!(stages.to_add_after_start(4.into()), 1.into());
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stages {
    /// Caught when the pan was drained.
    pub drained: Num,
    /// Poured out of the parts that came off: converter, lines, filter.
    pub poured: Num,
    /// Lost on the floor or in rags, by estimate.
    pub spilled: Num,
    /// New fluid put into the converter before it was fitted.
    pub prefilled: Num,
    /// New fluid filled in so far.
    pub filled: Num,
}

impl Stages {
    /// All that came out.
    pub fn out(&self) -> Num {
        self.drained + self.poured + self.spilled
    }

    /// All that has gone in.
    pub fn put_in(&self) -> Num {
        self.prefilled + self.filled
    }

    /// What is in a unit now that `holds` so much when its level is right, as it was at first. `None` when more came
    /// out than it holds.
    pub fn now_in(&self, holds: Num) -> Option<Num> {
        let left = holds - self.out();
        (!left.is_negative()).then(|| left + self.put_in())
    }

    /// What is still to add until as much is in as came out; below zero, so much too much is in.
    pub fn to_add(&self) -> Num {
        self.out() - self.put_in()
    }

    /// What is still to fill in before the first start, when the service information wants `first_fill` in through
    /// the filler by then, but never more than is missing.
    pub fn to_add_before_start(&self, first_fill: Num) -> Num {
        let missing = self.out() - self.prefilled;
        (first_fill.min(missing) - self.filled).max(Num::ZERO)
    }

    /// What keeps the first fill from going in as the service information wants it, in words; none when nothing does.
    fn limit_met(&self, first_fill: Num) -> Option<String> {
        let missing = self.out() - self.prefilled;
        if missing < self.filled {
            let over = (self.filled - missing).shown();
            return Some(format!("{over} L more is in than came out: nothing is to add"));
        }
        if first_fill > missing {
            let (whole, part) = (first_fill.shown(), missing.shown());
            return Some(format!(
                "the first fill of {whole} L is more than the {part} L that are missing, so only those go in"
            ));
        }
        let over = self.filled - first_fill;
        (over > Num::ZERO).then(|| format!("{} L more is in already than the first fill", over.shown()))
    }

    /// What is left to add with the engine running; below zero, so much too much is in already.
    pub fn to_add_after_start(&self, first_fill: Num) -> Num {
        self.to_add() - self.to_add_before_start(first_fill)
    }
}

const DRAINED: Parameter = Parameter::amount("drained", "L", "what was caught from the pan").at_least("0");
const POURED: Parameter =
    Parameter::amount("poured", "L", "what was poured out of parts that came off: converter, lines, filter")
        .at_least("0")
        .or("0 L");
const SPILLED: Parameter =
    Parameter::amount("spilled", "L", "what was lost, by estimate").at_least("0").or("0 L");
const PREFILLED: Parameter =
    Parameter::amount("prefilled", "L", "new fluid put into the converter before it was fitted")
        .at_least("0")
        .or("0 L");
const FILLED: Parameter =
    Parameter::amount("filled", "L", "new fluid filled in so far").at_least("0").or("0 L");
const FIRST_FILL: Parameter = Parameter::amount(
    "first_fill",
    "L",
    "what the service information wants filled in before the first start",
)
.at_least("0");

const ONE_TEMPERATURE: &str =
    "all volumes were read about equally warm; oil_volume_at says what one read hot is when cold";
const BALANCE: &str = "plain balance of volumes: what came out must go in";
const RIGHT_BEFORE: &str =
    "the level was right before the work; the final level is set by the vehicle's own check";

pub(super) const FLUID_NOW_IN: Function = Function {
    name: "fluid_now_in",
    summary: "how much fluid is in the unit now",
    parameters: &[
        Parameter::amount("holds", "L", "what the whole unit holds, by the service information").above("0"),
        DRAINED,
        POURED,
        SPILLED,
        PREFILLED,
        FILLED,
    ],
    result: Shape::Amount("L"),
    call: |given| {
        let now = stages(given)?.now_in(given.number("holds")?);
        now.map(Answer::Number)
            .ok_or_else(|| Refusal::of("drained", "no more can come out than the unit holds"))
    },
    assumes: &[RIGHT_BEFORE, ONE_TEMPERATURE],
    source: BALANCE,
    example: "fluid_now_in(9 L, drained = 4 L, poured = 2 L, prefilled = 1 L, filled = 3 L)",
};

pub(super) const FLUID_TO_ADD: Function = Function {
    name: "fluid_to_add",
    summary: "what is still to add in all; below zero, so much too much is in",
    parameters: &[DRAINED, POURED, SPILLED, PREFILLED, FILLED],
    result: Shape::Amount("L"),
    call: |given| Ok(too_much_is_in(stages(given)?.to_add())),
    assumes: &[RIGHT_BEFORE, ONE_TEMPERATURE],
    source: BALANCE,
    example: "fluid_to_add(4 L, poured = 2 L, prefilled = 1 L, filled = 3 L)",
};

pub(super) const FLUID_TO_ADD_BEFORE_START: Function = Function {
    name: "fluid_to_add_before_start",
    summary: "what is still to fill in before the first start",
    parameters: &[FIRST_FILL, DRAINED, POURED, SPILLED, PREFILLED, FILLED],
    result: Shape::Amount("L"),
    call: |given| {
        let (stages, first_fill) = (stages(given)?, given.number("first_fill")?);
        let number = stages.to_add_before_start(first_fill);
        Ok(noted(number, stages.limit_met(first_fill)))
    },
    assumes: &[RIGHT_BEFORE, ONE_TEMPERATURE],
    source: BALANCE,
    example: "fluid_to_add_before_start(4 L, drained = 4 L, poured = 2 L, prefilled = 1 L, filled = 3 L)",
};

pub(super) const FLUID_TO_ADD_AFTER_START: Function = Function {
    name: "fluid_to_add_after_start",
    summary: "what is left to add with the engine running; below zero, so much too much is in already",
    parameters: &[FIRST_FILL, DRAINED, POURED, SPILLED, PREFILLED, FILLED],
    result: Shape::Amount("L"),
    call: |given| {
        let (stages, first_fill) = (stages(given)?, given.number("first_fill")?);
        let number = stages.to_add_after_start(first_fill);
        match stages.limit_met(first_fill) {
            Some(note) => Ok(noted(number, Some(note))),
            None => Ok(too_much_is_in(number)),
        }
    },
    assumes: &[RIGHT_BEFORE, ONE_TEMPERATURE],
    source: BALANCE,
    example: "fluid_to_add_after_start(4 L, drained = 4 L, poured = 2 L, prefilled = 1 L, filled = 3 L)",
};

fn noted(number: Num, note: Option<String>) -> Answer {
    match note {
        Some(note) => Answer::Noted { number, note },
        None => Answer::Number(number),
    }
}

fn too_much_is_in(to_add: Num) -> Answer {
    let note = format!("{} L too much is in: nothing is to add", (-to_add).shown());
    noted(to_add, to_add.is_negative().then_some(note))
}

fn stages(given: &Given<'_>) -> Result<Stages, Refusal> {
    Ok(Stages {
        drained: given.number("drained")?,
        poured: given.number("poured")?,
        spilled: given.number("spilled")?,
        prefilled: given.number("prefilled")?,
        filled: given.number("filled")?,
    })
}
