//! What can be wrong with a due date.

use crate::source::Code;

/// A due that never falls due, or by a distance from nowhere.
pub static DUE_UNCLEAR: Code = Code {
    name: "due-unclear",
    summary: "it is not said when something falls due, or from which odometer its distance counts",
    teaching: "\
What falls due says after which `distance`, after how many `months` or `days`, or several of these: then the first
counts. A distance needs the `odometer` that it is counted from: a formula with the reading that gives it.

Wrong: `distance = '500 km'` alone

Right: `distance = '500 km'` with `odometer = 'odo_end'`
",
};
