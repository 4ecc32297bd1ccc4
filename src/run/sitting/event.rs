//! What can happen before, between and after the work.

use crate::procedure::{Name, SectionId, StepId};
use crate::run::sitting::InterruptionAnswer;
use crate::run::sitting::statements::Statement;
use crate::run::{Before, Disposition, View};

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

impl Declared {
    /// All of them, in the order in which they are offered.
    pub const ALL: [Self; 4] = [Self::Substitute, Self::Wrong, Self::Order, Self::Other];

    /// As it is said and written.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Substitute => "tool or part substituted",
            Self::Wrong => "procedure wrong",
            Self::Order => "out of sequence",
            Self::Other => "other",
        }
    }

    /// The one of these words.
    pub fn from_words(words: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|declared| declared.words().eq_ignore_ascii_case(words.trim()))
    }
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

impl InterruptionEvent {
    /// The answer that made it.
    pub(crate) fn answer(&self) -> InterruptionAnswer {
        match self.clone() {
            Self::Covered | Self::Stated(_) | Self::StillSo(_) => InterruptionAnswer::True,
            Self::NotCovered { state } | Self::Unmet { state, .. } | Self::NotSo { state, .. } => {
                InterruptionAnswer::Untrue { state }
            }
            Self::OutOfScope { disposition, reason } => {
                InterruptionAnswer::OutOfScope { disposition, reason }
            }
            Self::Found { state } => InterruptionAnswer::Standing { state },
            Self::Kept { .. } => InterruptionAnswer::Keep,
            Self::MakeSafe { .. } => InterruptionAnswer::MakeSafe,
            Self::DeferredToEnd { section, reason, .. } => InterruptionAnswer::DeferToEnd { section, reason },
            Self::Declared { declared, reason, .. } => InterruptionAnswer::Declare { declared, reason },
            Self::Approved { by, .. } => InterruptionAnswer::Approve { said: by },
            Self::NotApproved { reason, .. } => InterruptionAnswer::Refuse { reason },
        }
    }

    /// What happened, in a few words; `view` is the run after it.
    pub fn words(&self, view: View<'_>) -> String {
        let what = |name: &Name| {
            let hold = view.book.procedure.hold(name);
            hold.and_then(|hold| hold.protection.clone()).unwrap_or_else(|| name.to_string())
        };
        let number = |step: &StepId| view.book.procedure.step(*step).map_or("", |step| &step.number);
        let deviation = || format!("deviation {} recorded", view.state.deviations.len());
        match self {
            Self::Covered => "the procedure is for this vehicle".to_owned(),
            Self::NotCovered { state } => format!("the procedure is not for this vehicle: {state}"),
            Self::OutOfScope { .. } => format!("used on a vehicle that it is not for; {}", deviation()),
            Self::Stated(statement) => format!("confirmed: {}", statement.words(view)),
            Self::Unmet { statement, state } => format!("not so: {}; {state}", statement.words(view)),
            Self::Found { state } => format!("state of things: {state}"),
            Self::StillSo(step) => format!("step {} checked: still so", number(step)),
            Self::NotSo { step, state } => format!("step {} is not so any more: {state}", number(step)),
            Self::Kept { hold } => format!("stays in force: {}", what(hold)),
            Self::MakeSafe { hold } => format!("to be ended before the run rests: {}", what(hold)),
            Self::DeferredToEnd { step, section, .. } => {
                format!("step {} comes back at {}", number(step), Before::EndOf(*section).words(view.book))
            }
            Self::Declared { declared, .. } => format!("{}; {}", declared.words(), deviation()),
            Self::Approved { step, by } => {
                format!("step {} not applicable, approved by {by}; {}", number(step), deviation())
            }
            Self::NotApproved { step, .. } => format!("step {} is done after all", number(step)),
        }
    }

    /// The person's reason, where there is one.
    pub fn reason(&self) -> Option<&str> {
        match self {
            Self::OutOfScope { reason, .. }
            | Self::DeferredToEnd { reason, .. }
            | Self::Declared { reason, .. }
            | Self::NotApproved { reason, .. } => Some(reason),
            _ => None,
        }
    }
}
