//! Tests of `record`.
