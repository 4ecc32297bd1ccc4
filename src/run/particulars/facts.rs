//! What was said of particulars.

use std::collections::BTreeMap;

use jiff::civil::Date;

use crate::procedure::Name;
use crate::run::answered::Answered;
use crate::run::stamp::Stamp;

/// What is known of particulars.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Particulars {
    /// Which instruments stood for a tool, in order.
    pub instruments: BTreeMap<Name, Vec<Instrument>>,
    /// When the run was last taken up again.
    pub resumed: Option<Stamp>,
    /// What the odometer was said to show before, in order.
    pub odometer: Vec<Replaced>,
    /// What values of the vehicle were before, in order.
    pub vehicle: BTreeMap<Name, Vec<Replaced>>,
}

/// An instrument that stands for a tool of the procedure.
#[derive(Clone, Debug, PartialEq)]
pub struct Instrument {
    /// What is written on it: `TW-1`.
    pub identity: String,
    /// The last day on which its calibration is good.
    pub due: Date,
    /// When it was named.
    pub stamp: Stamp,
    /// The deviation, from 0, under which it is used although it is overdue.
    pub accepted: Option<usize>,
}

/// What stood somewhere before it was corrected.
#[derive(Clone, Debug, PartialEq)]
pub struct Replaced {
    /// What it was said to be.
    pub value: Answered,
    /// Where that was found, of a value of the vehicle.
    pub source: Option<String>,
    /// Why it was wrong.
    pub reason: String,
    /// When it was corrected.
    pub stamp: Stamp,
}
