//! The way through the steps: sections called complete, passes ended, ways chosen, sections begun anew.

pub(in crate::run) mod decide;
pub(in crate::run) mod event;
pub(in crate::run) mod words;
