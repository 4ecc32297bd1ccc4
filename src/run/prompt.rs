//! What to ask next, as data: the same for a terminal, a file of answers and a page.

use jiff::ZonedDateTime;

use crate::procedure::{Name, StepId};
use crate::run::answered::{Disposition, Leave};
use crate::run::fastening::event::{FasteningAnswer, FasteningAsk};
use crate::run::flow::event::{FlowAnswer, FlowAsk};
use crate::run::loose::event::{EndId, LooseAnswer};
use crate::run::particulars::event::{ParticularAnswer, ParticularAsk};
use crate::run::people::event::{PeopleAnswer, PeopleAsk};
use crate::run::sitting::event::{InterruptionAnswer, InterruptionAsk};
use crate::run::work::tree::OccurrenceId;

/// A question and where it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Prompt {
    /// What is asked.
    pub ask: Ask,
    /// The step that it belongs to, where it belongs to one.
    pub step: Option<StepId>,
    /// From which occurrence it is asked: names mean the nearest. The run itself asks of the present.
    pub within: OccurrenceId,
}

/// What is asked.
#[expect(missing_docs, reason = "the fields are what their names say")]
#[derive(Clone, Debug, PartialEq)]
pub enum Ask {
    /// The run rests; it must be resumed first.
    Resting,
    /// The run is closed; there is nothing left to ask.
    Finished,
    /// Read the resume brief.
    Brief,
    /// Who fills this role?
    Person(Name),
    /// What does the odometer show?
    Odometer,
    /// A value of this vehicle that the sheet does not give, with its source.
    VehicleValue(Name),
    /// Read and understood?
    Acknowledge(Name),
    /// Is this statement of a hold point true?
    Confirm { hold: Name, item: usize },
    /// A reading.
    Reading(Name),
    /// A result outside its limits, or one that cannot be judged: what now?
    Failed(Name),
    /// The person of this role releases the hold point.
    Release { hold: Name, role: Name },
    /// Which of these next? They may come in any order.
    Pick(Vec<StepId>),
    /// It is not time yet.
    Wait { wait: Name, until: ZonedDateTime },
    /// The wait lasted longer than it may: what now?
    Late { wait: Name, since: ZonedDateTime },
    /// Do it.
    Do,
    /// What is decided about a deviation, by its place from 0?
    Dispose(usize),
    /// About the way through the steps.
    Flow(FlowAsk),
    /// Among people.
    People(PeopleAsk),
    /// At a group of fasteners.
    Fastening(FasteningAsk),
    /// Particulars: an instrument, a file, what was typed, what the vehicle is.
    Particular(ParticularAsk),
    /// Before, between and after.
    Interruption(InterruptionAsk),
    /// What becomes of this loose end?
    LooseEnd(EndId),
    /// Close the run?
    Close,
}

impl Ask {
    /// The sort of question, in a word.
    pub const fn word(&self) -> &'static str {
        match self {
            Self::Resting => "resting",
            Self::Finished => "finished",
            Self::Brief => "brief",
            Self::Person(_) => "person",
            Self::Odometer => "odometer",
            Self::VehicleValue(_) => "vehicle value",
            Self::Acknowledge(_) => "acknowledge",
            Self::Confirm { .. } => "confirm",
            Self::Reading(_) => "reading",
            Self::Failed(_) => "failed",
            Self::Release { .. } => "release",
            Self::Pick(_) => "pick",
            Self::Wait { .. } => "wait",
            Self::Late { .. } => "late",
            Self::Do => "do",
            Self::Dispose(_) => "dispose",
            Self::Flow(ask) => ask.word(),
            Self::People(ask) => ask.word(),
            Self::Fastening(_) => "fastening",
            Self::Particular(_) => "particular",
            Self::Interruption(ask) => ask.word(),
            Self::LooseEnd(_) => "loose end",
            Self::Close => "close",
        }
    }
}

/// What came back. An answer that does not belong to the question is refused.
#[expect(missing_docs, reason = "the fields are what their names say")]
#[derive(Clone, Debug, PartialEq)]
pub enum Answer {
    /// The brief was read.
    AcceptBrief,
    /// The name of the person.
    Person(String),
    /// A reading, an odometer: as typed.
    Typed { text: String, slip: SlipCheck },
    /// A vehicle value: as typed, and where it was found.
    Sourced { text: String, source: String },
    /// Read and understood.
    Acknowledge,
    /// The statement is true.
    True,
    /// The statement is not true; this is how it is.
    Untrue { state: String },
    /// It is good, by eye.
    Good,
    /// It is not good; this is what is wrong.
    NotGood { state: String },
    /// The name or the initials of the person who releases.
    Release { said: String },
    /// This one next.
    Pick(StepId),
    /// It is done.
    Done,
    /// Take the readings behind a failed result again.
    Again { reason: String },
    /// Go on with a failed result or an overlong wait, as a deviation.
    Accept { disposition: Disposition, reason: String },
    /// This step does not apply here.
    NotApplicable { reason: String },
    /// This step later, at the latest just before another.
    Defer { before: StepId, reason: String },
    /// An entry of a reading was wrong: that one, or the newest in whatever pass.
    Correct { reading: Name, entry: Option<u64>, text: String, reason: String },
    /// A remark.
    Note(String),
    /// Something was moved or used on which the hold point rests, or whatever rests on what can be moved.
    Disturbed { what: String, hold: Option<Name> },
    /// End this sitting.
    Leave { how: Leave, reason: String, state: String, first: Option<String> },
    /// A decision about a deviation.
    Dispose { disposition: Disposition, reason: String },
    /// On the way through the steps.
    Flow(FlowAnswer),
    /// Among people.
    People(PeopleAnswer),
    /// At a group of fasteners.
    Fastening(FasteningAnswer),
    /// Particulars: an instrument, a file, what was typed, what the vehicle is.
    Particular(ParticularAnswer),
    /// Of loose ends.
    Loose(LooseAnswer),
    /// It was done before.
    Late(LateAnswer),
    /// Before, between and after.
    Interruption(InterruptionAnswer),
    /// Close the run.
    Close,
}

impl Answer {
    /// What a person says who judges something: good, or what is wrong with it.
    pub(crate) fn judging(wrong: Option<String>) -> Self {
        wrong.map_or(Self::Good, |state| Self::NotGood { state })
    }
}

/// Whether an unlikely value was already asked about.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum SlipCheck {
    /// Not yet: refuse what is likely a slip of the finger.
    #[default]
    Ask,
    /// The person looked again and says it is so.
    Sure,
}

/// An answer to something that was done before.
#[derive(Clone, Debug, PartialEq)]
pub struct LateAnswer {
    /// The answer to the question.
    pub answer: Box<Answer>,
    /// When it was done, as typed: a time of day, or a date and a time.
    pub done: String,
    /// Why it is entered late.
    pub reason: String,
}
