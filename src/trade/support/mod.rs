//! Support: what each stand or lift arm carries, and how that shifts when a heavy unit comes out.
//!
//! Nothing here calls anything safe: the load is compared with the rating, and the people on the job, the maker of
//! the stand or lift and the vehicle's service information decide.

mod axle;
mod corner;
mod height;
mod rating;
mod removal;
mod shared;

use crate::trade::Subject;

pub use axle::{centre_behind_front, front_load, rear_load};
pub use corner::{Place, Stand, stand_load, stand_load_at_worst};
pub use height::{Tilt, centre_height, load_gain_when_raised};
pub use rating::load_against_rating;
pub use removal::{Standing, Unit, centre_after_removal, common_centre, front_load_after, rear_load_after};

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
