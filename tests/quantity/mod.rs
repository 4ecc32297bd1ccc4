//! Tests of `quantity`.
