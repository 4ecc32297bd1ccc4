//! Tests of `record`.
#![allow(
    clippy::disallowed_methods,
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "these tests read golden files and fail by panicking"
)]

mod between;
mod canonical;
mod contents;
mod fasteners;
mod forged;
mod golden;
mod hostile;
mod instead;
mod mutations;
mod outcome;
mod pairs;
mod passes;
pub mod people;
mod redacted;
mod refused;
mod same_fields;
pub mod schema;
pub mod support;
mod times;
mod verified;
