//! Tests of `journal`.
