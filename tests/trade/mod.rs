//! Tests of `trade`.
