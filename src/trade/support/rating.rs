//! The load beside the rating.

use super::shared::{NO_VERDICT, load, weighed};
use crate::quantity::Num;
use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape};

/// Without a default on purpose: a tonnage is often meant for the pair, and only the plate says.
const SHARED_BY: Parameter = Parameter::number(
    "shared_by",
    "how many supports the rating is for: 1 if the plate says for each, 2 for a pair of stands, 4 for a lift",
)
.at_least("1")
.at_most("100");

pub(super) const AGAINST_RATING: Function = Function {
    name: "load_against_rating",
    summary: "what a stand or arm carries, as a share of what it is rated for",
    parameters: &[
        load("load", "what it carries").at_least("0"),
        load("rating", "the rating on the plate").above("0"),
        SHARED_BY,
    ],
    result: Shape::Amount("%"),
    call: row,
    assumes: &[
        "a rating for several supports is shared evenly among them",
        "more than 100 % is above the rating; less is no promise that it holds",
        NO_VERDICT,
    ],
    source: "load divided by rating; service literature, as commonly published, shares a rating among its supports",
    example: "load_against_rating(450 kg, rating = 3 t, shared_by = 2)",
};

/// The load as a ratio of the rating of one support, where the rating is for `shared_by` of them; load and rating in
/// one unit. `None` when the rating is zero.
///
/// ```
/// use bayhand::quantity::Num;
/// use bayhand::trade::support::load_against_rating;
///
/// assert_eq!(load_against_rating(3150.into(), 10_000.into(), 4.into()), Num::ratio(126, 100));
/// ```
pub fn load_against_rating(load: Num, rating: Num, shared_by: Num) -> Option<Num> {
    (load * shared_by).checked_div(rating)
}

fn row(given: &Given<'_>) -> Result<Answer, Refusal> {
    let shared_by = Num::from(i64::from(given.whole("shared_by")?));
    let share = load_against_rating(weighed(given, "load")?, weighed(given, "rating")?, shared_by)
        .ok_or_else(|| Refusal::of("rating", "must be more than 0"))?;
    Ok(Answer::Number(share * 100.into()))
}
