//! Tests of `terminal`.
