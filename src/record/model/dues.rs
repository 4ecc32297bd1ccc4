//! What falls due after the run.

use serde::{Deserialize, Serialize};

use super::{Amount, Moment};

/// Something that falls due from the day on which its step was done.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Due {
    /// Its name in the procedure.
    pub name: String,
    /// What is to be done then.
    pub what: String,
    /// The step that set it.
    pub step: String,
    /// When that was done.
    pub set: Moment,
    /// The day from which it is reckoned.
    pub since: String,
    /// When it is due, in words.
    pub words: String,
    /// The day by the calendar.
    pub by_calendar: Option<String>,
    /// The odometer at which it is due.
    pub odometer: Option<Amount>,
    /// The day on which the odometer may show that, where it is the first: an estimate from the use that the sheet gives.
    pub estimate: Option<String>,
}

impl Due {
    /// The day to be reminded of, and whether it is an estimate.
    pub fn day(&self) -> Option<(&str, bool)> {
        let estimate = self.estimate.as_deref().map(|day| (day, true));
        estimate.or_else(|| Some((self.by_calendar.as_deref()?, false)))
    }
}
