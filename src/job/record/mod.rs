//! The record of a job: what its runs have come to, put together in one place.
//!
//! [`build`] makes it from the job, its runs and their sealed records; the page of a job, its text and its JSON are
//! printed from it. Nothing in it is kept anywhere else: a job that is not finished has one too, and it says what is open.
//! Each run stands in it with the seal of its own record, so that another in its place shows; the whole is sealed in the
//! same way.

mod balances;
mod build;
mod compared;
mod dues;
mod fasteners;
mod hours;
pub mod model;
pub mod text;

pub use build::{KeptJob, build, record_of};
pub use compared::differences;
pub use dues::dues;

/// The record of a job as JSON that a person can read too.
pub fn to_json(record: &model::JobRecord) -> String {
    // Texts, whole numbers and lists of them: nothing that could fail to become JSON.
    let mut json = serde_json::to_string_pretty(record).unwrap_or_default();
    json.push('\n');
    json
}
