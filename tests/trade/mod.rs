//! Tests of `trade`.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "helpers of tests fail by panicking"
)]

mod case;
mod cases;
mod coverage;
mod misprints;
mod pattern;
mod properties;
mod published;
mod there_and_back;
mod units;
mod which_way;
