//! Whether two measurements differ by more than their uncertainties can explain.

use super::combined_uncertainty;
use super::shared::same;
use crate::quantity::Num;
use crate::trade::{Answer, Function, Refusal, Shape};

pub(super) const EN_NUMBER: Function = Function {
    name: "en_number",
    summary: "how far two measurements are apart, in their expanded uncertainties taken together",
    parameters: &[
        same("difference", "the one less the other; temperatures as a difference"),
        same("one", "the expanded uncertainty of the one, k = 2").at_least("0"),
        same("other", "the expanded uncertainty of the other, k = 2").at_least("0"),
    ],
    result: Shape::Number,
    call: |given| {
        en_number(given.number("difference")?, given.number("one")?, given.number("other")?)
            .map(Answer::Number)
            .ok_or_else(|| Refusal::of("other", "with no uncertainty at all every difference is real"))
    },
    assumes: &[
        "the two errors have nothing to do with each other; of one and the same instrument most of the error is in both and \
         drops out, so that this is the cautious figure",
        "above 1 the difference is more than the uncertainties can explain",
    ],
    source: "ISO 13528:2022, E_n score; ISO/IEC 17043",
    example: "en_number(0.6 psi, one = 0.4 psi, other = 0.3 psi)",
};

/// The size of a difference, divided by the root of the sum of the squares of the two expanded uncertainties, all in one
/// unit. Above 1 it is more than they can explain. `None` where there is no uncertainty at all.
///
/// ```
/// use bayhand::trade::measurement::en_number;
///
/// assert_eq!(en_number(10.into(), 3.into(), 4.into()), Some(2.into()));
/// ```
pub fn en_number(difference: Num, one: Num, other: Num) -> Option<Num> {
    difference.abs().checked_div(combined_uncertainty(&[one, other])?)
}
