//! What a reading with its uncertainty says about a limit, by an agreed rule.

use std::fmt;

use super::shared::{LOWER, UPPER, VALUE, same};
use crate::quantity::Num;
use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape};

/// How a reading is turned into a statement.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rule {
    /// ISO 14253-1: conformity is proven, or non-conformity, or neither.
    Prove,
    /// ILAC-G8:09/2019, binary with a guard band as wide as the expanded uncertainty: pass or fail.
    GuardBand,
    /// ILAC-G8:09/2019, non-binary with a guard band: pass or fail, each outright or conditionally.
    FourWay,
    /// Simple acceptance: pass or fail, whatever the uncertainty.
    Simple,
}

/// The statement.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Decision {
    /// Proven to keep the limits.
    Conforms,
    /// Proven not to keep them.
    DoesNotConform,
    /// Too close to a limit for this instrument.
    NeitherProven,
    /// Accepted.
    Pass,
    /// Within the limits, but closer to one than the uncertainty.
    ConditionalPass,
    /// Outside of the limits, but closer to one than the uncertainty.
    ConditionalFail,
    /// Not accepted.
    Fail,
}

const EXPANDED: Parameter = same("expanded", "the expanded uncertainty of the reading").at_least("0");
const RULE: Parameter =
    Parameter::choice("rule", &["prove", "guard band", "four-way", "simple"], "the rule that was agreed on")
        .or("prove");
const AGREED: &str = "the rule was agreed on before the reading was taken";
const SOURCE: &str = "ISO 14253-1 (prove); ILAC-G8:09/2019, clause 4.2 (simple, guard band, four-way)";

pub(super) const BELOW: Function = Function {
    name: "decide_below",
    summary: "what a reading says about an upper limit, by a rule",
    parameters: &[VALUE, UPPER, EXPANDED, RULE],
    result: Shape::Text,
    call: |given| {
        let room = given.number("upper")? - given.number("value")?;
        row(given, room)
    },
    assumes: &[AGREED],
    source: SOURCE,
    example: "decide_below(28.5 psi, upper = 30 psi, expanded = 1.2 psi)",
};

pub(super) const ABOVE: Function = Function {
    name: "decide_above",
    summary: "what a reading says about a lower limit, by a rule",
    parameters: &[VALUE, LOWER, EXPANDED, RULE],
    result: Shape::Text,
    call: |given| {
        let room = given.number("value")? - given.number("lower")?;
        row(given, room)
    },
    assumes: &[AGREED],
    source: SOURCE,
    example: "decide_above(2.4 L/min, lower = 2.2 L/min, expanded = 0.1 L/min)",
};

pub(super) const BETWEEN: Function = Function {
    name: "decide_between",
    summary: "what a reading says about two limits, by a rule",
    parameters: &[VALUE, LOWER, UPPER, EXPANDED, RULE],
    result: Shape::Text,
    call: between_row,
    assumes: &[AGREED],
    source: SOURCE,
    example: "decide_between(35 lbf·ft, lower = 33 lbf·ft, upper = 37 lbf·ft, expanded = 1.4 lbf·ft)",
};

/// What a reading says that lies `room` inside of its nearest limit (below zero: outside), with this expanded
/// uncertainty in the same unit. A reading exactly on an end of the band counts as inside of it.
///
/// ```
/// use bayhand::trade::measurement::{Decision, Rule, decide};
///
/// assert_eq!(decide(2.into(), 4.into(), Rule::Prove), Decision::NeitherProven);
/// ```
pub fn decide(room: Num, expanded: Num, rule: Rule) -> Decision {
    let (clear, within) = (room >= expanded, room >= Num::ZERO);
    let clearly_outside = room < -expanded;
    match rule {
        Rule::Prove if clear => Decision::Conforms,
        Rule::Prove if clearly_outside => Decision::DoesNotConform,
        Rule::Prove => Decision::NeitherProven,
        Rule::FourWay if !clear && within => Decision::ConditionalPass,
        Rule::FourWay if !within && !clearly_outside => Decision::ConditionalFail,
        Rule::FourWay | Rule::GuardBand if clear => Decision::Pass,
        Rule::Simple if within => Decision::Pass,
        Rule::FourWay | Rule::GuardBand | Rule::Simple => Decision::Fail,
    }
}

impl Rule {
    /// What the rule is called in a record.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Prove => "prove (ISO 14253-1)",
            Self::GuardBand => "guard band, as wide as the expanded uncertainty",
            Self::FourWay => "four-way, with a guard band as wide as the expanded uncertainty",
            Self::Simple => "simple acceptance",
        }
    }

    fn named(name: &str) -> Self {
        match name {
            "guard band" => Self::GuardBand,
            "four-way" => Self::FourWay,
            "simple" => Self::Simple,
            _ => Self::Prove,
        }
    }
}

impl fmt::Display for Decision {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(match self {
            Self::Conforms => "conforms",
            Self::DoesNotConform => "does not conform",
            Self::NeitherProven => "neither proven",
            Self::Pass => "pass",
            Self::ConditionalPass => "conditional pass",
            Self::ConditionalFail => "conditional fail",
            Self::Fail => "fail",
        })
    }
}

fn row(given: &Given<'_>, room: Num) -> Result<Answer, Refusal> {
    let rule = Rule::named(given.text("rule")?);
    Ok(Answer::Text(decide(room, given.number("expanded")?, rule).to_string()))
}

fn between_row(given: &Given<'_>) -> Result<Answer, Refusal> {
    let (value, lower, upper) = (given.number("value")?, given.number("lower")?, given.number("upper")?);
    if lower > upper {
        return Err(Refusal::of("lower", "must be at most the upper limit"));
    }
    row(given, (value - lower).min(upper - value))
}
