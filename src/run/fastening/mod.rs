//! Tightening a group of fasteners, place by place and stage by stage.
//!
//! What was done is kept as a row of acts; which places are done, failed or left out, and which comes next, is worked
//! out from the acts of one occurrence.

pub(in crate::run) mod aim;
pub(in crate::run) mod decide;
pub(in crate::run) mod event;
pub(in crate::run) mod facts;
pub(in crate::run) mod places;
pub(in crate::run) mod tightening;
pub(in crate::run) mod words;
