//! The parts of a record, each from the occurrences of the work, one file a part. What belongs to no occurrence (remarks,
//! sittings, briefs) comes from the entries themselves.

mod deviations;
mod dues;
mod fasteners;
mod hazards;
mod holds;
mod logs;
mod looks;
mod not_finished;
mod notes;
mod outcome;
mod pairs;
mod passes;
mod people;
mod readings;
mod repeats;
mod sittings;
mod steps;
mod values;
mod waits;
mod watches;
mod wording;
mod work;

pub(super) use deviations::deviations;
pub(super) use dues::dues;
pub(super) use fasteners::fasteners;
pub(super) use hazards::hazards;
pub(super) use holds::holds;
pub(super) use logs::logs;
pub(super) use looks::{briefs, looks};
pub(super) use not_finished::{found_in_force, loose_ends, not_finished, standing};
pub(super) use notes::Notes;
pub(super) use outcome::result;
pub(super) use pairs::pairs;
pub(super) use people::people;
pub(super) use readings::readings;
pub(super) use repeats::repeats;
pub(super) use sittings::{clock, sittings};
pub(super) use steps::steps;
pub(super) use values::values;
pub(super) use waits::waits;
pub(super) use watches::limits_in_force;
pub(super) use wording::shown;
pub(super) use work::{Work, moment};
