//! Carbon monoxide beside the published limits.

use std::fmt;

use super::shared::METER;
use crate::quantity::Num;
use crate::trade::{Answer, Function, Parameter, Refusal, Shape};

/// The highest published limit that is passed, the worst last. In ppm: an average of 35 (NIOSH) and of 50 (OSHA) over
/// the shift, a ceiling of 200 at any moment (NIOSH), and 1200, which is immediately dangerous (NIOSH).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Standing {
    /// None of them.
    Within,
    /// The average recommended by NIOSH.
    AboveRecommended,
    /// The average permitted by OSHA.
    AbovePermitted,
    /// The ceiling recommended by NIOSH.
    AboveCeiling,
    /// At or above what is immediately dangerous to life or health.
    Dangerous,
}

pub(super) const STANDING: Function = Function {
    name: "carbon_monoxide_standing",
    summary: "which published limits the carbon monoxide of a shift passes",
    parameters: &[
        Parameter::amount(
            "average",
            "ppm",
            "the average over eight hours, as time_weighted_average gives it",
        )
        .at_least("0"),
        Parameter::amount("highest", "ppm", "the highest reading of the shift").at_least("0"),
    ],
    result: Shape::Text,
    call: |given| {
        let (average, highest) = (given.number("average")?, given.number("highest")?);
        if average > highest {
            return Err(Refusal::of("highest", "must be at least the average; were the two turned round?"));
        }
        Ok(Answer::Text(carbon_monoxide_standing(average, highest).to_string()))
    },
    assumes: &[METER, "local rules may be stricter"],
    source: "NIOSH, IDLH documentation for carbon monoxide (PEL 50 ppm, REL 35 ppm, ceiling 200 ppm, IDLH 1200 ppm)",
    example: "carbon_monoxide_standing(average = 26 ppm, highest = 210 ppm)",
};

/// Which limit is passed, the worst of them; both in ppm.
///
/// ```
/// use bayhand::trade::air::{Standing, carbon_monoxide_standing};
///
/// assert_eq!(carbon_monoxide_standing(26.into(), 210.into()), Standing::AboveCeiling);
/// ```
pub fn carbon_monoxide_standing(average: Num, highest: Num) -> Standing {
    let above = |level: Num, limit: i64| level > limit.into();
    if highest >= 1200.into() {
        Standing::Dangerous
    } else if above(highest, 200) {
        Standing::AboveCeiling
    } else if above(average, 50) {
        Standing::AbovePermitted
    } else if above(average, 35) {
        Standing::AboveRecommended
    } else {
        Standing::Within
    }
}

impl fmt::Display for Standing {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(match self {
            Self::Within => "within the published limits",
            Self::AboveRecommended => "above the recommended average of 35 ppm",
            Self::AbovePermitted => "above the permitted average of 50 ppm",
            Self::AboveCeiling => "above the ceiling of 200 ppm",
            Self::Dangerous => "immediately dangerous: leave the bay, 1200 ppm or more",
        })
    }
}
