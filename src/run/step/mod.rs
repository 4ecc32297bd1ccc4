//! One step: whether it applies, what stands over it, when it is complete, how it is left out.

pub(in crate::run) mod completion;
pub(in crate::run) mod critical_act;
pub(in crate::run) mod dues;
pub(in crate::run) mod grounds;
pub(in crate::run) mod hazards;
pub(in crate::run) mod leave_out;
pub(in crate::run) mod linked;
pub(in crate::run) mod status;
pub(in crate::run) mod waits;
