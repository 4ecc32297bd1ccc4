//! Departures from the procedure: each is numbered, has a reason, and is decided about before the run is closed.

use crate::procedure::{Name, StepId};
use crate::run::answered::Disposition;
use crate::run::fastening::event::Spot;
use crate::run::sitting::event::Declared;
use crate::run::stamp::Stamp;
use crate::run::work::tree::OccurrenceId;

/// What a deviation departs from.
#[derive(Clone, Debug, PartialEq)]
pub enum Departure {
    /// A reading or a value outside its limits, or not to be judged.
    Result(Name),
    /// A step left out.
    NotApplicable(StepId),
    /// A wait that lasted too long.
    Late(StepId, Name),
    /// A repeat given up.
    GivenUp(Name),
    /// A repeat gone on with beyond what is allowed.
    OneMore(Name),
    /// A vehicle that the procedure is not for.
    Scope,
    /// What a person says, at a step where there was one.
    Declared(Option<StepId>, Declared),
    /// A check that was one person's own.
    Reinspected(StepId, Name),
    /// Two readings that differ.
    Differs(Name),
    /// An instrument used although its calibration is overdue.
    Overdue(Name),
    /// A fastener left out, from this stage on.
    FastenerLeftOut(Spot),
    /// A fastener that is not as the stage wants it.
    FastenerOff(Spot),
    /// What was done does not agree any more with what it was done under.
    Disagrees(StepId),
}

/// A departure from the procedure.
#[derive(Clone, Debug, PartialEq)]
pub struct Deviation {
    /// From what.
    pub departure: Departure,
    /// At which occurrence; the run itself where it belongs to none.
    pub at: OccurrenceId,
    /// Why.
    pub reason: String,
    /// When.
    pub stamp: Stamp,
    /// What was decided, and why.
    pub disposition: Option<(Disposition, String)>,
}
