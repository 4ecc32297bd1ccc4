//! Passes of repeats: which belong together, which count, what they are called, when they are due.

pub(in crate::run) mod by_itself;
pub(in crate::run) mod counting;
pub(in crate::run) mod round;
pub(in crate::run) mod rows;
pub(in crate::run) mod words;
