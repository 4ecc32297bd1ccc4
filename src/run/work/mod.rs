//! The work as it is unrolled by a run: a tree of occurrences, and what was said at each.

pub(in crate::run) mod derive;
pub(in crate::run) mod derived;
pub(in crate::run) mod deviation;
pub(in crate::run) mod facts;
pub(in crate::run) mod kept;
pub(in crate::run) mod open;
pub(in crate::run) mod opinion;
pub(in crate::run) mod part;
pub(in crate::run) mod placing;
pub(in crate::run) mod rests_on;
pub(in crate::run) mod steady;
pub(in crate::run) mod taken;
pub(in crate::run) mod times;
pub(in crate::run) mod told;
pub(in crate::run) mod tree;
pub(in crate::run) mod unrolled;
pub(in crate::run) mod unsettled;
