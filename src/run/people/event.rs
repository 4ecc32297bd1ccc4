//! What can happen, be asked and be answered among people.

use crate::procedure::{Name, StepId};
use crate::run::answered::{Answered, Disposition};

/// What can happen.
#[expect(missing_docs, reason = "the fields are what their names say")]
#[derive(Clone, Debug, PartialEq)]
pub enum PeopleEvent {
    /// The person of a role is the same as before.
    Kept(Name),
    /// Somebody else takes over a role; the note is the outgoing person's.
    TakenOver { role: Name, person: String, note: Option<String> },
    /// The incoming person has been shown the brief and accepts.
    TurnoverAccepted { role: Name, person: String },
    /// The pre-job brief was held with these people.
    Briefed { present: Vec<String> },
    /// Somebody came to see a step.
    Witnessed { step: StepId, witness: Name, person: String },
    /// Nobody came to see a step.
    NotWitnessed { step: StepId, witness: Name, reason: String },
    /// The work of a role was looked at and signed off.
    SignedOff { step: StepId, role: Name, person: String },
    /// Another person than its performers verified a step.
    Verified { step: StepId, check: Name, person: String },
    /// One of its performers looked at a step again after a break.
    Reinspected { step: StepId, check: Name, person: String, reason: String },
    /// Whoever looked at a step found it otherwise than it should be: it is done anew.
    FoundWrong { step: StepId, check: Option<Name>, person: String, state: String },
    /// A reading was taken a second time, blind to the first.
    SecondRead { reading: Name, value: Answered, person: String },
    /// A name was entered wrongly, at this entry; this is what it is.
    NameCorrected { role: Name, entry: u64, person: String, reason: String },
    /// A person said whether a result is good beside its nominal value; where it is not, what is wrong.
    Judged { result: Name, person: String, wrong: Option<String> },
    /// Two readings that differ are gone on with.
    DifferenceAccepted { reading: Name, disposition: Disposition, reason: String },
}

/// What is asked.
#[derive(Clone, Debug, PartialEq)]
pub enum PeopleAsk {
    /// Another day: has this role still the same person?
    Still(Name),
    /// Whoever takes over this role reads the brief and accepts.
    Turnover(Name),
    /// Hazards, roles, hold points, stop word: who is present?
    PreJobBrief,
    /// Who was called to see this is here, or not.
    Witness(Name),
    /// The person of this role looks at the step and signs it off.
    SignOff(Name),
    /// Another person verifies the step.
    Check(Name),
    /// Another person reads this again, blind.
    Second(Name),
    /// The two readings differ: what now?
    Differs(Name),
    /// Is this result good beside its nominal value?
    Nominal(Name),
}

/// What is answered, beside what other questions are answered with too: a name or initials, a reading, how it is.
#[expect(missing_docs, reason = "the fields are what their names say")]
#[derive(Clone, Debug, PartialEq)]
pub enum PeopleAnswer {
    /// The same person as before.
    Keep,
    /// This person.
    Named(String),
    /// This person takes over this role; said at any time.
    TakeOver { role: Name, person: String, note: String },
    /// The name of a role was entered wrongly; said at any time.
    CorrectName { role: Name, person: String, reason: String },
    /// These people are present, by name or initials.
    Present(Vec<String>),
    /// Whoever was called is not here.
    Absent { reason: String },
    /// One of the performers looks again.
    Reinspect { said: String, reason: String },
}
