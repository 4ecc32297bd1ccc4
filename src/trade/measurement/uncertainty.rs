//! From what an instrument promises to one number for its uncertainty.

use super::shared::same;
use crate::quantity::Num;
use crate::trade::{Answer, Function, Parameter, Refusal, Shape};

/// How the error lies between its two ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Spread {
    /// Anywhere alike: nothing but the two ends is known.
    Rectangular,
    /// More likely in the middle.
    Triangular,
    /// More likely at the ends, as of something that swings to and fro.
    Arcsine,
}

pub(super) const STANDARD: Function = Function {
    name: "standard_uncertainty",
    summary: "the standard uncertainty of an instrument that promises to be within so much, up or down",
    parameters: &[
        same("half_width", "the accuracy that is promised: 2 Δ°C for ±2 °C").at_least("0"),
        Parameter::choice(
            "spread",
            &["rectangular", "triangular", "arcsine"],
            "how the error lies between the two ends",
        )
        .or("rectangular"),
    ],
    result: Shape::Same,
    call: |given| {
        let spread = Spread::named(given.text("spread")?);
        Ok(Answer::Number(standard_uncertainty(given.number("half_width")?, spread)))
    },
    assumes: &["the promise is kept: the instrument is in calibration"],
    source: "JCGM 100:2008 (GUM) 4.3.7, 4.3.9",
    example: "standard_uncertainty(1 psi)",
};

pub(super) const RESOLUTION: Function = Function {
    name: "resolution_uncertainty",
    summary: "the standard uncertainty that comes from reading to the nearest step of a scale or display",
    parameters: &[same("step", "the smallest step that is read").at_least("0")],
    result: Shape::Same,
    call: |given| Ok(Answer::Number(resolution_uncertainty(given.number("step")?))),
    assumes: &["the reading is rounded to the nearest step"],
    source: "JCGM 100:2008 (GUM) F.2.2.1: step / sqrt(12)",
    example: "resolution_uncertainty(1 psi)",
};

pub(super) const COMBINED: Function = Function {
    name: "combined_uncertainty",
    summary: "several standard uncertainties of one reading taken together",
    parameters: &[same("parts", "standard uncertainties that have nothing to do with each other")
        .at_least("0")
        .many()],
    result: Shape::Same,
    call: |given| {
        combined_uncertainty(given.many("parts")?)
            .map(Answer::Number)
            .ok_or_else(|| Refusal::of("parts", "these have no finite sum"))
    },
    assumes: &["the parts have nothing to do with each other"],
    source: "JCGM 100:2008 (GUM) 5.1.2: root of the sum of squares",
    example: "combined_uncertainty(standard_uncertainty(1 psi), resolution_uncertainty(2 psi))",
};

pub(super) const EXPANDED: Function = Function {
    name: "expanded_uncertainty",
    summary: "a standard uncertainty made wide enough to hold nearly always",
    parameters: &[
        same("standard", "the standard uncertainty").at_least("0"),
        Parameter::number("factor", "the coverage factor; 2 is about 95 %").above("0").or("2"),
    ],
    result: Shape::Same,
    call: |given| {
        Ok(Answer::Number(expanded_uncertainty(given.number("standard")?, given.number("factor")?)))
    },
    assumes: &["the error is about normally distributed; for few readings coverage_factor gives the factor"],
    source: "JCGM 100:2008 (GUM) 6.2.1: U = k·u",
    example: "expanded_uncertainty(1.2 psi)",
};

/// The standard uncertainty of an error that lies within `half_width` up or down, in the same unit.
pub fn standard_uncertainty(half_width: Num, spread: Spread) -> Num {
    half_width * Num::approx(1.0 / libm::sqrt(spread.divisor_squared()))
}

/// The standard uncertainty of reading to the nearest `step`, in the same unit.
pub fn resolution_uncertainty(step: Num) -> Num {
    step * Num::approx(1.0 / libm::sqrt(12.0))
}

/// The root of the sum of squares, in the unit of the parts.
///
/// ```
/// use bayhand::trade::measurement::combined_uncertainty;
///
/// assert_eq!(combined_uncertainty(&[3.into(), 4.into()]), Some(5.into()));
/// ```
pub fn combined_uncertainty(parts: &[Num]) -> Option<Num> {
    parts.iter().fold(Num::ZERO, |sum, part| sum + *part * *part).sqrt()
}

/// The standard uncertainty times a coverage factor.
pub fn expanded_uncertainty(standard: Num, factor: Num) -> Num {
    standard * factor
}

impl Spread {
    fn named(name: &str) -> Self {
        match name {
            "triangular" => Self::Triangular,
            "arcsine" => Self::Arcsine,
            _ => Self::Rectangular,
        }
    }

    fn divisor_squared(self) -> f64 {
        match self {
            Self::Rectangular => 3.0,
            Self::Triangular => 6.0,
            Self::Arcsine => 2.0,
        }
    }
}
