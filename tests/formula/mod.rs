//! Tests of `formula`.
#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic, reason = "helpers of tests")]

mod cases;
mod checked_values;
mod dates;
mod functions;
mod never_panics;
mod passes;
mod public;
mod renamed;
mod said;
mod temperatures;
mod units_do_not_matter;
pub mod world;
