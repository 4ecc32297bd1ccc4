//! Tests of `source`.
#![allow(clippy::expect_used, reason = "helpers of tests")]

mod clean;
mod few;
mod json;
mod render;
mod suggest;
