//! Gathering the parts of a record from the events, one file a part. Each is shown every [`super::turn::Turn`] in order.

mod clock;
mod deviations;
mod fasteners;
mod hazards;
mod holds;
mod logs;
mod notes;
mod pairs;
mod people;
mod readings;
mod sittings;
mod steps;
mod values;
mod waits;
mod wording;

pub(super) use clock::clock;
pub(super) use deviations::Deviations;
pub(super) use fasteners::FastenerGroups;
pub(super) use hazards::Hazards;
pub(super) use holds::Holds;
pub(super) use logs::logs;
pub(super) use notes::Notes;
pub(super) use pairs::Pairs;
pub(super) use people::People;
pub(super) use readings::Readings;
pub(super) use sittings::Sittings;
pub(super) use steps::Steps;
pub(super) use values::Values;
pub(super) use waits::Waits;
pub(super) use wording::{level_word, shown};
