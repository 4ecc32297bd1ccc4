//! Tests of `quantity`.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "helpers of tests fail by panicking"
)]

mod apart;
mod conversions;
mod entries;
mod limits;
mod numbers;
mod off;
mod properties;
mod rules;
mod units;

use bayhand::quantity::{Quantity, Unit, parse_literal};

fn unit(text: &str) -> Unit {
    Unit::parse(text).unwrap_or_else(|problem| panic!("{problem}"))
}

fn q(text: &str) -> Quantity {
    parse_literal(text).unwrap_or_else(|problem| panic!("{text}: {problem}"))
}
