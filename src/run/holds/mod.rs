//! Hold points: which stand, which have lapsed, which protections are in force.

pub(in crate::run) mod ask;
pub(in crate::run) mod standing;
pub(in crate::run) mod touched;
pub(in crate::run) mod verification;
