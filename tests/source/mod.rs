//! Tests of `source`.
#![allow(clippy::expect_used, reason = "helpers of tests")]

mod clean;
mod json;
mod render;
mod suggest;
