//! Tests of `procedure`.
