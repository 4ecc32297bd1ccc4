//! Tests of `tidy`.
