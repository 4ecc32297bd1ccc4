//! What is said of what happens among people.

use crate::procedure::{Name, StepId};
use crate::run::people::event::{PeopleAnswer, PeopleAsk, PeopleEvent};
use crate::run::prompt::{Answer, SlipCheck};
use crate::run::view::View;

impl PeopleAsk {
    /// The sort of question, in a word or two.
    pub const fn word(&self) -> &'static str {
        match self {
            Self::Still(_) => "still",
            Self::Turnover(_) => "turnover",
            Self::PreJobBrief => "pre-job brief",
            Self::Witness(_) => "witness",
            Self::SignOff(_) => "sign-off",
            Self::Check(_) => "check",
            Self::Second(_) => "second reading",
            Self::Differs(_) => "differs",
            Self::Nominal(_) => "nominal",
        }
    }

    /// Where the run stands, in a word; `number` is the step's.
    pub fn label(&self, number: &str) -> String {
        match self {
            Self::Still(name)
            | Self::Witness(name)
            | Self::Check(name)
            | Self::Differs(name)
            | Self::Nominal(name) => name.to_string(),
            Self::Turnover(_) | Self::PreJobBrief => self.word().to_owned(),
            Self::SignOff(_) => format!("sign-off {number}"),
            Self::Second(name) => format!("second {name}"),
        }
    }
}

impl PeopleEvent {
    /// The answer that made it.
    pub(crate) fn answer(&self) -> Answer {
        let own = match self.clone() {
            Self::Kept(_) => PeopleAnswer::Keep,
            Self::TakenOver { person, note: None, .. } => PeopleAnswer::Named(person),
            Self::TakenOver { role, person, note: Some(note) } => {
                PeopleAnswer::TakeOver { role, person, note }
            }
            Self::Briefed { present } => PeopleAnswer::Present(present),
            Self::NotWitnessed { reason, .. } => PeopleAnswer::Absent { reason },
            Self::Reinspected { person, reason, .. } => PeopleAnswer::Reinspect { said: person, reason },
            Self::NameCorrected { role, person, reason, .. } => {
                PeopleAnswer::CorrectName { role, person, reason }
            }
            Self::TurnoverAccepted { person, .. }
            | Self::Witnessed { person, .. }
            | Self::SignedOff { person, .. }
            | Self::Verified { person, .. } => return Answer::Release { said: person },
            Self::FoundWrong { state, .. } => return Answer::Untrue { state },
            Self::SecondRead { value, .. } => {
                return Answer::Typed { text: value.as_typed(), slip: SlipCheck::Sure };
            }
            Self::DifferenceAccepted { disposition, reason, .. } => {
                return Answer::Accept { disposition, reason };
            }
            Self::Judged { wrong, .. } => return Answer::judging(wrong),
        };
        Answer::People(own)
    }

    /// What happened, in a few words; `view` is the run after it.
    pub fn words(&self, view: View<'_>) -> String {
        let procedure = &view.book.procedure;
        let what = |name: &Name| procedure.called(name).to_owned();
        let number = |step: &StepId| procedure.step(*step).map_or("", |step| &step.number);
        match self {
            Self::Kept(role) => {
                format!("still {} ({role})", view.state.people.get(role).map_or("", String::as_str))
            }
            Self::TakenOver { role, person, .. } => format!("{person} takes over as {role}"),
            Self::NameCorrected { role, person, .. } => format!("name corrected: {person} ({role})"),
            Self::TurnoverAccepted { role, person } => {
                format!("turnover accepted by {person} ({role}), brief read")
            }
            Self::Briefed { present } => format!("pre-job brief held, present: {}", present.join(", ")),
            Self::Witnessed { step, witness, person } => {
                format!("step {} witnessed by {person}: {}", number(step), what(witness))
            }
            Self::NotWitnessed { step, witness, .. } => {
                format!("step {} not witnessed: {}", number(step), what(witness))
            }
            Self::SignedOff { step, person, .. } => {
                format!("step {} checked and signed off by {person}", number(step))
            }
            Self::Verified { step, check, person } => {
                format!("step {}, independent verification by {person}: {}", number(step), what(check))
            }
            Self::Reinspected { step, check, person, .. } => {
                format!("step {}, re-inspection (one person) by {person}: {}", number(step), what(check))
            }
            Self::FoundWrong { step, person, state, .. } => {
                format!("step {} found otherwise by {person}: {state}; it is done anew", number(step))
            }
            Self::SecondRead { reading, person, .. } => {
                format!("second reading by {person}, blind to the first: {}", what(reading))
            }
            Self::Judged { result, person, wrong } => {
                format!("{}: {}", what(result), crate::run::work::opinion::words(person, wrong.as_deref()))
            }
            Self::DifferenceAccepted { reading, .. } => format!(
                "two readings that differ are gone on with: {}; deviation {} recorded",
                what(reading),
                view.state.deviations.len()
            ),
        }
    }

    /// Whether somebody looked at work.
    pub(crate) const fn is_look(&self) -> bool {
        matches!(self, Self::SignedOff { .. } | Self::Verified { .. } | Self::Reinspected { .. })
    }

    /// The person's reason, or the outgoing person's note, where there is one.
    pub fn reason(&self) -> Option<&str> {
        match self {
            Self::TakenOver { note, .. } => note.as_deref(),
            Self::NotWitnessed { reason, .. }
            | Self::NameCorrected { reason, .. }
            | Self::Reinspected { reason, .. }
            | Self::DifferenceAccepted { reason, .. } => Some(reason),
            _ => None,
        }
    }
}
