//! Tests of `cli`.
