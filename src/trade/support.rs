//! Support: what each stand or lift arm carries, and how that shifts when a heavy unit comes out.
//!
//! Nothing here calls anything safe: the load is compared with the rating, and the people on the job, the maker of
//! the stand or lift and the vehicle's service information decide.

mod axle;
mod corner;
mod height;
mod rating;
mod removal;

pub use axle::{centre_behind_front, front_load, rear_load};
pub use corner::{Place, Stand, stand_load, stand_load_at_worst};
pub use height::{Tilt, centre_height, load_gain_when_raised};
pub use rating::load_against_rating;
pub use removal::{Standing, Unit, centre_after_removal, common_centre, front_load_after, rear_load_after};

use super::{Parameter, Refusal, Sort, Subject};

/// The functions about support.
pub const SUPPORT: Subject = Subject {
    name: "support",
    functions: &[
        axle::FRONT,
        axle::REAR,
        axle::CENTRE_BEHIND,
        removal::CENTRE_AFTER,
        removal::FRONT_AFTER,
        removal::REAR_AFTER,
        removal::COMMON_CENTRE,
        corner::LOAD,
        corner::LOAD_AT_WORST,
        height::CENTRE_HEIGHT,
        height::GAIN,
        rating::AGAINST_RATING,
    ],
};

const WEIGHT: Parameter = load("weight", "what the vehicle weighs as it stands").above("0");
const CENTRE: Parameter = Parameter::amount(
    "centre",
    "mm",
    "from the front supports back to the centre of gravity",
);
const SPAN: Parameter =
    Parameter::amount("span", "mm", "from the front supports back to the rear ones").above("0");

const LEVEL: &str = "the vehicle stands level and still, on hard ground";
const NO_VERDICT: &str = "a computed load is no verdict: the supports' makers and the people on the job decide whether it may stand";

const fn load(name: &'static str, meaning: &'static str) -> Parameter {
    Parameter::new(name, Sort::SameAmount, meaning)
}

fn tips(parameter: &str) -> Refusal {
    Refusal::of(
        parameter,
        "the centre of gravity must lie between the front and the rear supports: beyond them the vehicle tips",
    )
}
