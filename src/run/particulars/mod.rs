//! Particulars: which instrument, what is typed before a critical act, what the vehicle is, where it was told otherwise.

pub(in crate::run) mod decide;
pub(in crate::run) mod event;
pub(in crate::run) mod facts;
pub(in crate::run) mod instruments;
pub(in crate::run) mod revised;
pub(in crate::run) mod words;
