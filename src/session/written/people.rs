//! Events among people, as they stand in the journal.

use serde::{Deserialize, Serialize};

use super::{Unread, WrittenAnswer, WrittenDisposition};
use crate::procedure::{Name, StepId};
use crate::run::PeopleEvent;

/// An event as written.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum WrittenPeople {
    /// The person of a role is the same.
    Kept { role: String },
    /// Somebody else takes over a role.
    TakenOver { role: String, name: String, note: Option<String> },
    /// A name was entered wrongly.
    NameCorrected { role: String, entry: u64, name: String, reason: String },
    /// The incoming person accepts.
    TurnoverAccepted { role: String, name: String },
    /// The pre-job brief.
    Briefed { present: Vec<String> },
    /// Somebody came to see a step.
    Witnessed { step: usize, witness: String, name: String },
    /// Nobody came to see a step.
    NotWitnessed { step: usize, witness: String, reason: String },
    /// A step was signed off.
    SignedOff { step: usize, role: String, name: String },
    /// A step was verified by another person.
    Verified { step: usize, check: String, name: String },
    /// A step was looked at again by one of its performers.
    Reinspected { step: usize, check: String, name: String, reason: String },
    /// A step was found otherwise than it should be.
    FoundWrong { step: usize, check: Option<String>, name: String, state: String },
    /// A reading was taken a second time.
    SecondReading { reading: String, value: WrittenAnswer, name: String },
    /// A person said whether a result is good.
    Judged { result: String, name: String, wrong: Option<String> },
    /// Two readings that differ are gone on with.
    DifferenceAccepted { reading: String, disposition: WrittenDisposition, reason: String },
}

impl From<PeopleEvent> for WrittenPeople {
    fn from(event: PeopleEvent) -> Self {
        match event {
            PeopleEvent::Kept(role) => Self::Kept { role: role.to_string() },
            PeopleEvent::TakenOver { role, person, note } => {
                Self::TakenOver { role: role.to_string(), name: person, note }
            }
            PeopleEvent::NameCorrected { role, entry, person, reason } => {
                Self::NameCorrected { role: role.to_string(), entry, name: person, reason }
            }
            PeopleEvent::TurnoverAccepted { role, person } => {
                Self::TurnoverAccepted { role: role.to_string(), name: person }
            }
            PeopleEvent::Briefed { present } => Self::Briefed { present },
            PeopleEvent::Witnessed { step, witness, person } => {
                Self::Witnessed { step: step.0, witness: witness.to_string(), name: person }
            }
            PeopleEvent::NotWitnessed { step, witness, reason } => {
                Self::NotWitnessed { step: step.0, witness: witness.to_string(), reason }
            }
            PeopleEvent::SignedOff { step, role, person } => {
                Self::SignedOff { step: step.0, role: role.to_string(), name: person }
            }
            PeopleEvent::Verified { step, check, person } => {
                Self::Verified { step: step.0, check: check.to_string(), name: person }
            }
            PeopleEvent::Reinspected { step, check, person, reason } => {
                Self::Reinspected { step: step.0, check: check.to_string(), name: person, reason }
            }
            PeopleEvent::FoundWrong { step, check, person, state } => Self::FoundWrong {
                step: step.0,
                check: check.map(|check| check.to_string()),
                name: person,
                state,
            },
            PeopleEvent::SecondRead { reading, value, person } => {
                Self::SecondReading { reading: reading.to_string(), value: value.into(), name: person }
            }
            PeopleEvent::Judged { result, person, wrong } => {
                Self::Judged { result: result.to_string(), name: person, wrong }
            }
            PeopleEvent::DifferenceAccepted { reading, disposition, reason } => Self::DifferenceAccepted {
                reading: reading.to_string(),
                disposition: disposition.into(),
                reason,
            },
        }
    }
}

impl WrittenPeople {
    /// The live event, or which part of it this version cannot read.
    pub(super) fn read(self) -> Result<PeopleEvent, Unread> {
        Ok(match self {
            Self::Kept { role } => PeopleEvent::Kept(Name::from(role)),
            Self::TakenOver { role, name, note } => {
                PeopleEvent::TakenOver { role: Name::from(role), person: name, note }
            }
            Self::NameCorrected { role, entry, name, reason } => {
                PeopleEvent::NameCorrected { role: Name::from(role), entry, person: name, reason }
            }
            Self::TurnoverAccepted { role, name } => {
                PeopleEvent::TurnoverAccepted { role: Name::from(role), person: name }
            }
            Self::Briefed { present } => PeopleEvent::Briefed { present },
            Self::Witnessed { step, witness, name } => {
                PeopleEvent::Witnessed { step: StepId(step), witness: Name::from(witness), person: name }
            }
            Self::NotWitnessed { step, witness, reason } => {
                PeopleEvent::NotWitnessed { step: StepId(step), witness: Name::from(witness), reason }
            }
            Self::SignedOff { step, role, name } => {
                PeopleEvent::SignedOff { step: StepId(step), role: Name::from(role), person: name }
            }
            Self::Verified { step, check, name } => {
                PeopleEvent::Verified { step: StepId(step), check: Name::from(check), person: name }
            }
            Self::Reinspected { step, check, name, reason } => PeopleEvent::Reinspected {
                step: StepId(step),
                check: Name::from(check),
                person: name,
                reason,
            },
            Self::FoundWrong { step, check, name, state } => PeopleEvent::FoundWrong {
                step: StepId(step),
                check: check.map(Name::from),
                person: name,
                state,
            },
            Self::SecondReading { reading, value, name } => {
                PeopleEvent::SecondRead { reading: Name::from(reading), value: value.read()?, person: name }
            }
            Self::Judged { result, name, wrong } => {
                PeopleEvent::Judged { result: Name::from(result), person: name, wrong }
            }
            Self::DifferenceAccepted { reading, disposition, reason } => PeopleEvent::DifferenceAccepted {
                reading: Name::from(reading),
                disposition: disposition.into(),
                reason,
            },
        })
    }
}
