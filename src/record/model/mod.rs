//! The record as it stands on disk. These types are the format; the live ones may change freely.
//!
//! Numbers that are measured or computed are texts: JSON readers round what they take for numbers. `number` is exact
//! (`35`, `12.7`, `1/3`; a `~` in front says that it is approximate), `shown` is what a person reads.
//!
//! Format 1 is the first; this is the place to list what later ones change.

mod amount;
mod fasteners;
mod head;
mod holds;
mod log;
mod people;
mod results;
mod steps;
mod times;

pub use amount::{Amount, Answer, Conversion, File, TypedAmount};
pub use fasteners::{
    FastenerAct, FastenerGroup, FastenerPass, FastenerPlace, FastenerStage, FastenerTarget, Loosened,
};
pub use head::{
    Deviation, Deviations, LinkedProcedure, Moment, Person, Procedure, Record, Replaced, Seal, Sheet,
    Vehicle, VehicleValue,
};
pub use holds::{Acknowledgement, Ended, Hold, HoldReading, Release, Statement, Untrue, Verification};
pub use log::{Log, Row, RowReading};
pub use people::{Brief, Look, Second, Turnover};
pub use results::{
    Attempt, Certainty, Instrument, Judged, Limit, Pair, PairEnd, Reading, SetAside, UsedInstrument, Value,
    ValueResult,
};
pub use steps::{Step, Turn};
pub use times::{ClockJump, Late, LateStart, Note, Sitting, SittingEnd, Wait, WaitStart};

/// The format that is written, and the only one so far that is read.
pub const FORMAT: u32 = 1;
