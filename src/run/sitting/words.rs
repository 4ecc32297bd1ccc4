//! What is said of what happens before, between and after the work.

use crate::procedure::{Name, StepId};
use crate::run::sitting::event::{Declared, InterruptionAnswer, InterruptionAsk, InterruptionEvent};
use crate::run::sitting::facts::Statement;
use crate::run::view::View;
use crate::run::work::taken::Before;

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
