//! Tests of `formula`.
