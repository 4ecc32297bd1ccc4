//! The record as it stands on disk. These types are the format; the live ones may change freely.
//!
//! Numbers that are measured or computed are texts: JSON readers round what they take for numbers. `number` is exact
//! (`35`, `12.7`, `1/3`; a `~` in front says that it is approximate), `shown` is what a person reads.
//!
//! Format 1 is the first; this is the place to list what later ones change.

mod amount;
mod deviations;
mod dues;
mod fasteners;
mod holds;
mod log;
mod outcome;
mod people;
mod place;
mod procedure;
mod record;
mod repeats;
mod results;
mod steps;
mod times;
mod vehicle;
mod watches;

pub use amount::{Amount, Answer, Conversion, File, TypedAmount};
pub use deviations::{Deviation, Deviations};
pub use dues::Due;
pub use fasteners::{FastenerAct, FastenerGroup, FastenerPlace, FastenerStage, FastenerTarget, Loosened};
pub use holds::{
    Acknowledgement, Ended, Hold, HoldFasteners, HoldReading, Release, Statement, Untrue, Verification,
};
pub use log::{Log, Row, RowReading};
pub use outcome::{FoundInForce, LooseEnd, NotFinished, Outcome, Standing};
pub use people::{Brief, Look, NameBefore, Person, Second, Turnover};
pub use place::{Aside, Moment, Place};
pub use procedure::{LinkedProcedure, Procedure};
pub use record::{Record, Redacted, Seal};
pub use repeats::{Pass, Repeat};
pub use results::{
    Attempt, Certainty, Correction, Distance, Instrument, Judged, Limit, Pair, PairEnd, Reading, SetAside,
    UsedInstrument, Value, ValueResult,
};
pub use steps::{Change, Step};
pub use times::{ClockJump, Late, LateStart, Note, Sitting, SittingEnd, Wait, WaitStart};
pub use vehicle::{Replaced, Sheet, Vehicle, VehicleValue};
pub use watches::{LimitInForce, WatchedReading};

/// The format that is written, and the only one so far that is read.
pub const FORMAT: u32 = 1;
