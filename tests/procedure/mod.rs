//! Tests of `procedure`, `table` and `vehicle`.

// Helpers of tests are no tests in the eyes of clippy, and tests read files and the update switch themselves.
#![allow(clippy::disallowed_methods, clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod asks_much;
mod authors;
mod cases;
mod codes;
mod commonmark;
mod format;
mod hostile;
mod links;
mod order;
mod sheet;
mod shipped;
mod slips;
mod steps;
mod support;
mod toml_suite;
