//! Sittings: what must be true before and after the job, leaving, coming back.

pub(in crate::run) mod apply;
pub(in crate::run) mod decide;
pub(in crate::run) mod event;
pub(in crate::run) mod facts;
pub(in crate::run) mod kit;
pub(in crate::run) mod leave;
pub(in crate::run) mod rehearsal;
pub(in crate::run) mod resume;
pub(in crate::run) mod statements;
pub(in crate::run) mod words;
