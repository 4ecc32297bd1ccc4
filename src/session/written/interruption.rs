//! Events before, between and after the work, as they stand in the journal.

use serde::{Deserialize, Serialize};

use super::{Unread, WrittenDisposition};
use crate::procedure::{Name, SectionId, StepId};
use crate::run::{Declared, InterruptionEvent, Statement};

/// An event as written.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum WrittenInterruption {
    /// The procedure is for this vehicle.
    Covered {},
    /// It is not.
    NotCovered { state: String },
    /// It is used all the same.
    OutOfScope { disposition: WrittenDisposition, reason: String },
    /// A statement that is required before the work is true.
    Required { item: usize },
    /// It is not true.
    RequiredUntrue { item: usize, state: String },
    /// A statement that closes the job up is true.
    CloseUp { item: usize },
    /// It is not true.
    CloseUpUntrue { item: usize, state: String },
    /// How things stand.
    Found { state: String },
    /// A step is still as it was.
    StillSo { step: usize },
    /// A step is not as it was any more.
    NotSo { step: usize, state: String },
    /// A protection stays in force.
    Kept { hold: String },
    /// A protection is ended before the run rests.
    MakeSafe { hold: String },
    /// A step was put off until the end of a section.
    DeferredToEnd { step: usize, section: usize, reason: String },
    /// A departure that a person declared.
    Declared { step: Option<usize>, declared: WrittenDeclared, reason: String },
    /// The lead agrees that a step does not apply.
    Approved { step: usize, by: String },
    /// The lead does not agree.
    NotApproved { step: usize, reason: String },
}

/// What was departed from, as written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WrittenDeclared {
    /// A tool or a part is another.
    Substitute,
    /// The procedure is wrong.
    Wrong,
    /// Another order.
    Order,
    /// Anything else.
    Other,
}

impl From<InterruptionEvent> for WrittenInterruption {
    fn from(event: InterruptionEvent) -> Self {
        match event {
            InterruptionEvent::Covered => Self::Covered {},
            InterruptionEvent::NotCovered { state } => Self::NotCovered { state },
            InterruptionEvent::OutOfScope { disposition, reason } => {
                Self::OutOfScope { disposition: disposition.into(), reason }
            }
            InterruptionEvent::Stated(Statement::Required(item)) => Self::Required { item },
            InterruptionEvent::Stated(Statement::CloseUp(item)) => Self::CloseUp { item },
            InterruptionEvent::Unmet { statement: Statement::Required(item), state } => {
                Self::RequiredUntrue { item, state }
            }
            InterruptionEvent::Unmet { statement: Statement::CloseUp(item), state } => {
                Self::CloseUpUntrue { item, state }
            }
            InterruptionEvent::Found { state } => Self::Found { state },
            InterruptionEvent::StillSo(step) => Self::StillSo { step: step.0 },
            InterruptionEvent::NotSo { step, state } => Self::NotSo { step: step.0, state },
            InterruptionEvent::Kept { hold } => Self::Kept { hold: hold.to_string() },
            InterruptionEvent::MakeSafe { hold } => Self::MakeSafe { hold: hold.to_string() },
            InterruptionEvent::DeferredToEnd { step, section, reason } => {
                Self::DeferredToEnd { step: step.0, section: section.0, reason }
            }
            InterruptionEvent::Declared { step, declared, reason } => {
                Self::Declared { step: step.map(|step| step.0), declared: declared.into(), reason }
            }
            InterruptionEvent::Approved { step, by } => Self::Approved { step: step.0, by },
            InterruptionEvent::NotApproved { step, reason } => Self::NotApproved { step: step.0, reason },
        }
    }
}

impl WrittenInterruption {
    #[expect(clippy::unnecessary_wraps, reason = "the same for every family of events")]
    pub(super) fn read(self) -> Result<InterruptionEvent, Unread> {
        let unmet = |statement, state| InterruptionEvent::Unmet { statement, state };
        Ok(match self {
            Self::Covered {} => InterruptionEvent::Covered,
            Self::NotCovered { state } => InterruptionEvent::NotCovered { state },
            Self::OutOfScope { disposition, reason } => {
                InterruptionEvent::OutOfScope { disposition: disposition.into(), reason }
            }
            Self::Required { item } => InterruptionEvent::Stated(Statement::Required(item)),
            Self::RequiredUntrue { item, state } => unmet(Statement::Required(item), state),
            Self::CloseUp { item } => InterruptionEvent::Stated(Statement::CloseUp(item)),
            Self::CloseUpUntrue { item, state } => unmet(Statement::CloseUp(item), state),
            Self::Found { state } => InterruptionEvent::Found { state },
            Self::StillSo { step } => InterruptionEvent::StillSo(StepId(step)),
            Self::NotSo { step, state } => InterruptionEvent::NotSo { step: StepId(step), state },
            Self::Kept { hold } => InterruptionEvent::Kept { hold: Name::from(hold) },
            Self::MakeSafe { hold } => InterruptionEvent::MakeSafe { hold: Name::from(hold) },
            Self::DeferredToEnd { step, section, reason } => {
                InterruptionEvent::DeferredToEnd { step: StepId(step), section: SectionId(section), reason }
            }
            Self::Declared { step, declared, reason } => {
                InterruptionEvent::Declared { step: step.map(StepId), declared: declared.into(), reason }
            }
            Self::Approved { step, by } => InterruptionEvent::Approved { step: StepId(step), by },
            Self::NotApproved { step, reason } => {
                InterruptionEvent::NotApproved { step: StepId(step), reason }
            }
        })
    }
}

impl From<Declared> for WrittenDeclared {
    fn from(declared: Declared) -> Self {
        match declared {
            Declared::Substitute => Self::Substitute,
            Declared::Wrong => Self::Wrong,
            Declared::Order => Self::Order,
            Declared::Other => Self::Other,
        }
    }
}

impl From<WrittenDeclared> for Declared {
    fn from(written: WrittenDeclared) -> Self {
        match written {
            WrittenDeclared::Substitute => Self::Substitute,
            WrittenDeclared::Wrong => Self::Wrong,
            WrittenDeclared::Order => Self::Order,
            WrittenDeclared::Other => Self::Other,
        }
    }
}
