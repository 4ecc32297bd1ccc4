//! Readings and values: how they are entered and with what, how they are judged.

pub(in crate::run) mod certainty;
pub(in crate::run) mod entry;
pub(in crate::run) mod in_force;
pub(in crate::run) mod judge;
pub(in crate::run) mod kept_file;
pub(in crate::run) mod lateness;
pub(in crate::run) mod opinion;
pub(in crate::run) mod other_unit;
pub(in crate::run) mod second;
pub(in crate::run) mod weighed;
