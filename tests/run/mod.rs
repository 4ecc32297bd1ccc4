//! Tests of `run`.
