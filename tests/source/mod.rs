//! Tests of `source`.
