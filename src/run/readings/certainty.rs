//! What the accuracy of an instrument means for a verdict.

use std::fmt;

use crate::quantity::{Dimension, Limits, Num, Outcome, Quantity, Verdict};
use crate::trade::measurement::{
    Decision, Rule, Spread, decide, expanded_uncertainty, probability_above, probability_below,
    probability_between, standard_uncertainty,
};

/// What the accuracy of an instrument means for a result: an error anywhere within the accuracy is equally likely
/// (JCGM 100:2008, 4.3.7), the true value is spread normally around the result (JCGM 106:2012, 7.2).
#[derive(Clone, Debug, PartialEq)]
pub struct Certainty {
    /// Plus or minus this much, in the unit of the result.
    pub accuracy: Quantity,
    /// The expanded uncertainty, k = 2, in the unit of the result.
    pub expanded: Quantity,
    /// How far inside its nearest limit the result is, in the unit of the result; below zero outside.
    room: Num,
    /// The probability that the true value keeps the limits, from 0 to 1.
    pub conformity: f64,
}

impl Certainty {
    /// Of a result that was read with an instrument of this accuracy, an amount or a share of the result.
    pub fn of(result: &Quantity, accuracy: &Quantity, limits: &Limits) -> Option<Self> {
        let unit = result.unit.as_difference();
        let half = half_width(result, accuracy)?.number;
        let standard = standard_uncertainty(half, Spread::Rectangular);
        let number = |limit: &Quantity| limit.in_unit(&result.unit).ok().map(|limit| limit.number);
        let above = limits
            .lower
            .as_ref()
            .and_then(|lower| number(&lower.quantity))
            .map(|lower| result.number - lower);
        let below = limits
            .upper
            .as_ref()
            .and_then(|upper| number(&upper.quantity))
            .map(|upper| upper - result.number);
        let room = match (above, below) {
            (Some(above), Some(below)) => above.min(below),
            (one, other) => one.or(other)?,
        };
        let conformity = conformity((above, below), room, standard);
        let expanded = expanded_uncertainty(standard, 2.into());
        let amount = |number: Num| Quantity::new(number, unit.clone());
        Some(Self { accuracy: amount(half), expanded: amount(expanded), room, conformity })
    }

    /// Whether the accuracy of the instrument leaves no doubt that the limits are kept.
    pub fn is_beyond_doubt(&self) -> bool {
        self.conformity > 0.995
    }
}

/// How far a result can be off on either side, in its own unit, by an accuracy that is an amount or a share of the result.
pub(crate) fn half_width(result: &Quantity, accuracy: &Quantity) -> Option<Quantity> {
    let unit = result.unit.as_difference();
    let share = accuracy.unit.dimension() == Dimension::NONE && unit.dimension() != Dimension::NONE;
    if share {
        return Some(Quantity::new((result.number * accuracy.base()).abs(), unit));
    }
    accuracy.in_unit(&unit).ok()
}

/// The probability that the true value keeps the limits, of which the result is so far inside. A share of a reading of
/// zero is no uncertainty at all.
fn conformity((above, below): (Option<Num>, Option<Num>), room: Num, standard: Num) -> f64 {
    let uncertainty = standard.to_f64();
    match (above.map(Num::to_f64), below.map(Num::to_f64)) {
        _ if standard.is_zero() => f64::from(u8::from(room >= Num::ZERO)),
        (Some(above), Some(below)) => probability_between(above, below, uncertainty),
        (Some(above), None) => probability_above(above, uncertainty),
        (None, below) => probability_below(below.unwrap_or_default(), uncertainty),
    }
}

/// `±1 psi makes it 97 % likely that the limits are kept`.
impl fmt::Display for Certainty {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let accuracy = Quantity::new(self.accuracy.number.rounded(4), self.accuracy.unit.clone());
        let percent = self.conformity * 100.0;
        let likely = match percent {
            _ if self.is_beyond_doubt() => "over 99".to_owned(),
            percent if percent < 0.5 => "under 1".to_owned(),
            percent => format!("{percent:.0}"),
        };
        write!(out, "{} makes it {likely} % likely that the limits are kept", accuracy.plus_minus())
    }
}

/// What a rule makes of a verdict. The verdict is exact, an exclusive limit included; the rule can only make it
/// stricter, or call it conditional. A rule that needs an accuracy where none is known takes no chance: it fails.
pub(in crate::run) fn decision(verdict: &Verdict, rule: Rule, certainty: Option<&Certainty>) -> Decision {
    let passes = verdict.outcome == Outcome::Pass;
    match (rule, certainty) {
        (Rule::Simple, _) if passes => Decision::Pass,
        (Rule::Simple, _) | (_, None) => Decision::Fail,
        (rule, Some(certainty)) => {
            let room = certainty.room;
            match decide(room, certainty.expanded.number, rule) {
                // On a bound that is itself no good any more there is no room, and yet it is no pass.
                Decision::Pass if !passes => Decision::Fail,
                Decision::ConditionalPass if !passes => Decision::ConditionalFail,
                other => other,
            }
        }
    }
}
