//! People: who is there, who takes over, who looks at whose work.

pub(in crate::run) mod attendance;
pub(in crate::run) mod decide;
pub(in crate::run) mod event;
pub(in crate::run) mod facts;
pub(in crate::run) mod oversight;
pub(in crate::run) mod refusal;
pub(in crate::run) mod words;
