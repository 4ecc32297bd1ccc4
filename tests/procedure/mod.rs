//! Tests of `procedure`, `table` and `vehicle`.

mod cases;
mod codes;
mod commonmark;
mod format;
mod hostile;
mod order;
mod sheet;
mod shipped;
mod steps;
mod support;
mod toml_suite;
