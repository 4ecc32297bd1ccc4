//! Loose ends: what a step, or a person, leaves to be done; each is settled, or carried out of the job by name.

pub(in crate::run) mod decide;
pub(in crate::run) mod ends;
pub(in crate::run) mod event;
pub(in crate::run) mod facts;
pub(in crate::run) mod words;
