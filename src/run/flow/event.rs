//! What can happen, be asked and be answered on the way through the steps.

use crate::procedure::{Name, SectionId, StepId};
use crate::run::answered::Disposition;
use crate::run::work::tree::PassEnd;

/// What can happen.
#[expect(missing_docs, reason = "the fields are what their names say")]
#[derive(Clone, Debug, PartialEq)]
pub enum FlowEvent {
    /// A section was called complete.
    SectionCompleted(SectionId),
    /// The work of a section is done; what follows confirms it.
    WorkDone(SectionId),
    /// A pass of a repeat is over; with its item, where the repeat goes through a list.
    PassEnded { repeat: Name, end: PassEnd, item: Option<String> },
    /// A pass that counted does not, as it turned out.
    PassTakenBack { repeat: Name, reason: String },
    /// A repeat is given up, or gone on from although its passes were in vain.
    GivenUp { repeat: Name, disposition: Disposition, reason: String, item: Option<String> },
    /// More passes are made than the procedure allows.
    Extended { repeat: Name, reason: String },
    /// A section is begun anew, its readings kept.
    Restarted { section: SectionId, reason: String },
    /// Of several ways this one is gone.
    Chosen(StepId),
    /// A wait was missed: the procedure's own path for that is taken.
    Missed { step: StepId, wait: Name },
    /// A row of a log is begun before it is due.
    BegunEarly(Name),
    /// What was done is left as it is, although it no longer agrees with what it was done under.
    Settled { step: StepId, disposition: Disposition, reason: String },
}

/// What is asked.
#[expect(missing_docs, reason = "the fields are what their names say")]
#[derive(Clone, Debug, PartialEq)]
pub enum FlowAsk {
    /// Is this section complete?
    SectionComplete(SectionId),
    /// Do the work of this section; then its steps are confirmed.
    Perform(SectionId),
    /// Does this pass count?
    PassEnd(Name),
    /// All passes were in vain: what now?
    Exhausted(Name),
    /// Which way? Exactly one.
    Choose { step: StepId, ways: Vec<StepId> },
    /// This was done under what no longer holds since something was corrected: what now?
    Disagrees(StepId),
}

/// What is answered.
#[expect(missing_docs, reason = "the fields are what their names say")]
#[derive(Clone, Debug, PartialEq)]
pub enum FlowAnswer {
    /// The section is complete.
    Complete,
    /// The work of the section is done.
    WorkDone,
    /// The pass counts.
    Counts,
    /// The pass does not count.
    Invalid { reason: String },
    /// Give the repeat up that the work stands in, or go on although it was in vain.
    GiveUp { disposition: Disposition, reason: String },
    /// Make another pass than are allowed.
    Extend { reason: String },
    /// Begin the section anew.
    Restart { reason: String },
    /// This way.
    Choose(StepId),
    /// Take the procedure's path for a missed wait.
    Missed,
    /// Begin the next row of a log now, although it is not due yet.
    Early,
}
