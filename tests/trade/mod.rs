//! Tests of `trade`.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "helpers of tests fail by panicking"
)]

mod any_unit;
mod case;
mod cases;
mod coverage;
mod there_and_back;
mod which_way;
