//! What can happen, be asked and be answered before, between and after the work.

use crate::procedure::{Name, SectionId, StepId};
use crate::run::answered::Disposition;
use crate::run::sitting::facts::Statement;

/// What a person departs from by a word of his own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Declared {
    /// A tool, a material or a part is another than the procedure names.
    Substitute,
    /// What the procedure says is wrong here.
    Wrong,
    /// Steps were done in another order.
    Order,
    /// Anything else.
    Other,
}

/// What can happen.
#[expect(missing_docs, reason = "the fields are what their names say")]
#[derive(Clone, Debug, PartialEq)]
pub enum InterruptionEvent {
    /// The procedure is for this vehicle.
    Covered,
    /// It is not: this is how the vehicle differs.
    NotCovered { state: String },
    /// The procedure is used on a vehicle that it is not for.
    OutOfScope { disposition: Disposition, reason: String },
    /// A statement about the whole job is true.
    Stated(Statement),
    /// It is not true; this is how it is.
    Unmet { statement: Statement, state: String },
    /// How things stand, said later than they were left.
    Found { state: String },
    /// A step that was done before the interruption is still as it was.
    StillSo(StepId),
    /// It is not so any more; this is how it is.
    NotSo { step: StepId, state: String },
    /// A protection stays in force while the run rests, by the hold point that put it in force.
    Kept { hold: Name },
    /// A protection is ended before the run rests.
    MakeSafe { hold: Name },
    /// A step is put off, at the latest until the end of a section.
    DeferredToEnd { step: StepId, section: SectionId, reason: String },
    /// A departure, by a person's word.
    Declared { step: Option<StepId>, declared: Declared, reason: String },
    /// The lead agrees that a step does not apply.
    Approved { step: StepId, by: String },
    /// The lead does not agree.
    NotApproved { step: StepId, reason: String },
}

/// What is asked.
#[derive(Clone, Debug, PartialEq)]
pub enum InterruptionAsk {
    /// Is the procedure for this vehicle?
    Scope,
    /// Is this statement about the whole job true?
    Statement(Statement),
    /// How do things stand?
    Standing,
    /// Is this step still as it was?
    StillSo(StepId),
    /// Does this protection stay in force while the run rests, or is it ended now?
    Protection(Name),
    /// Does this step really not apply?
    Approval(StepId),
}

/// What is answered.
#[expect(missing_docs, reason = "the fields are what their names say")]
#[derive(Clone, Debug, PartialEq)]
pub enum InterruptionAnswer {
    /// It is so.
    True,
    /// It is not so; this is how it is.
    Untrue { state: String },
    /// Use the procedure on a vehicle that it is not for.
    OutOfScope { disposition: Disposition, reason: String },
    /// This is how things stand.
    Standing { state: String },
    /// The protection stays in force.
    Keep,
    /// The protection is ended now.
    MakeSafe,
    /// This step later, at the latest at the end of a section.
    DeferToEnd { section: SectionId, reason: String },
    /// Declare a departure.
    Declare { declared: Declared, reason: String },
    /// The name or the initials of the lead, who agrees.
    Approve { said: String },
    /// The lead does not agree.
    Refuse { reason: String },
}
