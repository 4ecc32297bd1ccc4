//! What is asked before, between and after the work, and what is answered.

use crate::procedure::{Name, SectionId, StepId};
use crate::run::sitting::Declared;
use crate::run::sitting::statements::Statement;
use crate::run::{Disposition, View};

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

impl InterruptionAsk {
    /// The sort of question, in a word.
    pub const fn word(&self) -> &'static str {
        match self {
            Self::Scope => "applicability",
            Self::Statement(Statement::Required(_)) => "required",
            Self::Statement(Statement::CloseUp(_)) => "close-up",
            Self::Standing => "state",
            Self::StillSo(_) => "check",
            Self::Protection(_) => "protection",
            Self::Approval(_) => "approval",
        }
    }

    /// Where the run stands, in a word.
    pub fn label(&self, view: View<'_>) -> String {
        let number = |step: &StepId| view.book.procedure.step(*step).map_or("", |step| &step.number);
        match self {
            Self::Scope => "scope".to_owned(),
            Self::Statement(statement) => statement.label(),
            Self::Standing => "state".to_owned(),
            Self::StillSo(step) => format!("check {}", number(step)),
            Self::Protection(hold) => hold.to_string(),
            Self::Approval(step) => format!("approval {}", number(step)),
        }
    }

    /// The step that it is about.
    pub const fn step(&self) -> Option<StepId> {
        match self {
            Self::StillSo(step) | Self::Approval(step) => Some(*step),
            _ => None,
        }
    }
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
