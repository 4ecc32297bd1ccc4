//! Hold points: which stand, which have lapsed, which protections are in force.

pub(in crate::run) mod verification;
