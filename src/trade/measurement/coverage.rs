//! How many standard uncertainties it takes to be so sure.

use statrs::distribution::{ContinuousCDF, Normal, StudentsT};

use super::shared::CONFIDENCE;
use crate::trade::{Answer, Function, Parameter, Refusal, Shape};

/// With more degrees of freedom than this the expansion about the normal distribution has all digits that matter.
const NEARLY_NORMAL: f64 = 1000.0;

/// Whether an error in one direction counts, or in both.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sides {
    /// In one: the value must only not be too high, or only not too low.
    One,
    /// In both.
    Two,
}

pub(super) const NORMAL: Function = Function {
    name: "normal_factor",
    summary: "the coverage factor for a confidence, where the uncertainty is well known",
    parameters: &[
        CONFIDENCE,
        Parameter::choice("sides", &["two", "one"], "whether being off counts in both directions").or("two"),
    ],
    result: Shape::Number,
    call: |given| {
        let sides = Sides::named(given.text("sides")?);
        normal_factor(given.float("confidence")? / 100.0, sides)
            .ok_or_else(out_of_range)
            .and_then(Answer::float)
    },
    assumes: &["the error is normally distributed"],
    source: "quantile of the normal distribution; JCGM 100:2008 (GUM) table G.1",
    example: "normal_factor(95 %)",
};

pub(super) const STUDENT: Function = Function {
    name: "coverage_factor",
    summary: "the coverage factor for a confidence, where the uncertainty comes from few readings",
    parameters: &[CONFIDENCE, Parameter::number("freedom", "the effective degrees of freedom").at_least("1")],
    result: Shape::Number,
    call: |given| {
        coverage_factor(given.float("confidence")? / 100.0, given.float("freedom")?)
            .ok_or_else(out_of_range)
            .and_then(Answer::float)
    },
    assumes: &["being off counts in both directions"],
    source: "quantile of Student's t distribution; JCGM 100:2008 (GUM) table G.2",
    example: "coverage_factor(95 %, freedom = 9)",
};

/// The factor for a well-known uncertainty; the confidence between 0 and 1, else `None`.
pub fn normal_factor(confidence: f64, sides: Sides) -> Option<f64> {
    is_share(confidence).then(|| Normal::standard().inverse_cdf(sides.below(confidence)))
}

/// The two-sided factor for an uncertainty with so many degrees of freedom, which may have decimals; `None` when the
/// confidence is not between 0 and 1 or the freedom is not above zero.
pub fn coverage_factor(confidence: f64, freedom: f64) -> Option<f64> {
    let student = StudentsT::new(0.0, 1.0, freedom).ok()?;
    if freedom > NEARLY_NORMAL {
        return normal_factor(confidence, Sides::Two).map(|normal| near_normal(normal, freedom));
    }
    is_share(confidence).then(|| student.inverse_cdf(Sides::Two.below(confidence)))
}

/// Student's quantile from the normal one, for many degrees of freedom (Abramowitz and Stegun, 26.7.5). The library's
/// own search loses digits there, and far out does not end.
fn near_normal(normal: f64, freedom: f64) -> f64 {
    let square = normal * normal;
    let first = (square + 1.0) / 4.0;
    let second = ((5.0 * square + 16.0) * square + 3.0) / 96.0;
    let third = (((3.0 * square + 19.0) * square + 17.0) * square - 15.0) / 384.0;
    normal * (1.0 + (first + (second + third / freedom) / freedom) / freedom)
}

fn is_share(confidence: f64) -> bool {
    confidence > 0.0 && confidence < 1.0
}

impl Sides {
    pub(in crate::trade) fn named(name: &str) -> Self {
        match name {
            "one" => Self::One,
            _ => Self::Two,
        }
    }

    /// The probability below the upper end.
    fn below(self, confidence: f64) -> f64 {
        match self {
            Self::One => confidence,
            Self::Two => f64::midpoint(1.0, confidence),
        }
    }
}

fn out_of_range() -> Refusal {
    Refusal::of("confidence", "must be more than 0 % and less than 100 %")
}
