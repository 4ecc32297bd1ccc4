//! How well an uncertainty itself is known.

use super::shared::same;
use crate::quantity::Num;
use crate::trade::{Answer, Function, Parameter, Refusal, Shape};

const WELCH: &str = "JCGM 100:2008 (GUM) G.4.1, Welch-Satterthwaite";
const NOT_ROUNDED: &str = "the combined uncertainty was not rounded before";

pub(super) const SHARE: Function = Function {
    name: "freedom_share",
    summary: "what one part adds to the doubt about a combined uncertainty; for effective_freedom",
    parameters: &[
        same("part", "the standard uncertainty of the part").at_least("0"),
        same("combined", "the combined standard uncertainty").above("0"),
        Parameter::number("freedom", "the part's degrees of freedom: repeated readings less one").above("0"),
    ],
    result: Shape::Number,
    call: |given| {
        freedom_share(given.number("part")?, given.number("combined")?, given.number("freedom")?)
            .map(Answer::Number)
            .ok_or_else(|| Refusal::of("combined", "must be more than 0"))
    },
    assumes: &[NOT_ROUNDED],
    source: WELCH,
    example: "freedom_share(3 psi, combined = 5 psi, freedom = 4)",
};

pub(super) const EFFECTIVE: Function = Function {
    name: "effective_freedom",
    summary: "the effective degrees of freedom of a combined uncertainty, from the shares of its parts",
    parameters: &[Parameter::number("shares", "the freedom_share of each part").at_least("0").many()],
    result: Shape::Number,
    call: |given| {
        effective_freedom(given.many("shares")?)
            .map(Answer::Number)
            .ok_or_else(|| Refusal::of("shares", "one of them at least must be more than 0"))
    },
    assumes: &[NOT_ROUNDED],
    source: WELCH,
    example: "effective_freedom(freedom_share(3 psi, combined = 5 psi, freedom = 4), freedom_share(4 psi, combined = 5 psi, freedom = 9))",
};

/// `(part / combined)⁴ / freedom`; part and combined in one unit. `None` when a divisor is zero.
pub fn freedom_share(part: Num, combined: Num, freedom: Num) -> Option<Num> {
    part.checked_div(combined)?.powi(4)?.checked_div(freedom)
}

/// One divided by the sum of the shares; `None` when they are all zero.
pub fn effective_freedom(shares: &[Num]) -> Option<Num> {
    let sum = shares.iter().fold(Num::ZERO, |sum, share| sum + *share);
    Num::ONE.checked_div(sum)
}
