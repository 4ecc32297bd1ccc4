//! The passes of one repeat, as they stand.

use crate::run::work::tree::OccurrenceId;

/// Why a repeat makes no further pass.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Over {
    /// All passes are made, or what it goes on for has come.
    Met,
    /// The most passes were made in vain.
    Exhausted,
    /// It was given up.
    GivenUp,
}

/// The passes of one repeat within one occurrence.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Round {
    /// The occurrence that the passes belong to.
    pub within: Option<OccurrenceId>,
    /// How many turns were looked at: those that have ended.
    pub(super) seen: usize,
    /// The passes that have ended, in order; what was set aside and begun anew is none.
    pub ended: Vec<OccurrenceId>,
    /// Which slot of its schedule each of them stands for, where passes are made every so often.
    pub(super) slots: Vec<i64>,
    /// Those of them that count: valid, and after the last that begins the count anew.
    pub counting: Vec<OccurrenceId>,
    /// Why there is no further pass.
    pub over: Option<Over>,
    /// The item of the present pass, where the repeat goes through a list.
    pub item: Option<String>,
}
