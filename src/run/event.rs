//! What can happen in a run. One answer makes one event, one event makes one line of the journal.

use std::sync::Arc;

use jiff::ZonedDateTime;
use jiff::civil::Date;

use crate::procedure::{Name, StepId};
use crate::quantity::Entry;
use crate::run::fastening::FasteningEvent;
use crate::run::flow::event::FlowEvent;
use crate::run::people::event::PeopleEvent;
use crate::run::readings::event::TakingEvent;
use crate::run::sitting::InterruptionEvent;
use crate::run::work::Address;

/// When an event was recorded, its place in the journal, and where in the work it belongs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stamp {
    /// Counts from 1 without a gap.
    pub seq: u64,
    /// The computer's time, with its offset.
    pub at: ZonedDateTime,
    /// The occurrence that it belongs to, by its address; none where it belongs to the run as a whole.
    pub place: Option<Arc<Address>>,
}

/// Exactly which bytes a run goes by.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pin {
    /// Its file's name without the ending: `cooler-line-flush`.
    pub name: String,
    /// What it is: a procedure's title and revision, a vehicle's description.
    pub what: String,
    /// SHA-256 of its bytes, in hexadecimal.
    pub sha256: String,
}

/// How a run began.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Start {
    /// The run's name, for example `2026-11-21-cooler-line-flush`.
    pub run: String,
    /// The version of bayhand that began it.
    pub engine: String,
    /// The procedure.
    pub procedure: Pin,
    /// The procedures that it links to; the name of each is its address, seen from the folder of the first.
    pub linked: Vec<Pin>,
    /// The vehicle sheet, where there is one.
    pub sheet: Option<Pin>,
    /// The file that answers in a person's place, where there is one: its times are not a clock's.
    pub answered_from: Option<String>,
}

/// What was answered where a reading is asked for.
#[derive(Clone, Debug, PartialEq)]
pub enum Answered {
    /// A quantity or a count.
    Quantity(Entry),
    /// One of the choices.
    Choice(String),
    /// Free text.
    Text(String),
    /// A date.
    Date(Date),
    /// Names, in order.
    List(Vec<String>),
    /// A file that is kept with the run.
    File(KeptFile),
    /// One of the named outcomes in place of a value.
    Instead(String),
}

/// Exactly which bytes lie with a run as a reading.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KeptFile {
    /// What the file was called where it came from.
    pub name: String,
    /// Its length in bytes.
    pub size: u64,
    /// SHA-256 of its bytes, in hexadecimal.
    pub sha256: String,
}

impl Answered {
    /// As a person reads it; with its conversion when it was typed in another unit than asked for.
    pub fn shown(&self) -> String {
        match self {
            Self::Quantity(entry) if entry.typed.unit == entry.asked.unit => entry.asked.to_string(),
            Self::Quantity(entry) => format!("{} = {}", entry.typed, entry.asked),
            Self::File(file) => format!("{} ({} bytes)", file.name, file.size),
            other => other.as_typed(),
        }
    }

    /// What a person types to say it.
    pub fn as_typed(&self) -> String {
        match self {
            Self::Quantity(entry) => entry.text.clone(),
            Self::Choice(text) | Self::Text(text) | Self::Instead(text) => text.clone(),
            Self::Date(date) => date.to_string(),
            Self::List(items) => items.join(", "),
            Self::File(file) => file.name.clone(),
        }
    }
}

/// What is decided about a departure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Disposition {
    /// It was, or will be, done over so that it meets the requirement.
    Rework,
    /// It was made fit for use, without meeting the requirement in full.
    Repair,
    /// It stays as it is, with a reason.
    UseAsIs,
    /// It is not used.
    Reject,
}

impl Disposition {
    /// All of them, in the order in which they are offered.
    pub const ALL: [Self; 4] = [Self::Rework, Self::Repair, Self::UseAsIs, Self::Reject];

    /// As it is said and written: `use as is`.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Rework => "rework",
            Self::Repair => "repair",
            Self::UseAsIs => "use as is",
            Self::Reject => "reject",
        }
    }

    /// With what it means, for a person who has to choose.
    pub fn meaning(self) -> String {
        let meaning = match self {
            Self::Rework => "done over until it meets the requirement",
            Self::Repair => "made fit for use, short of the requirement",
            Self::UseAsIs => "stays as it is, with a reason",
            Self::Reject => "is not used",
        };
        format!("{}: {meaning}", self.words())
    }

    /// The disposition of these words.
    pub fn from_words(words: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|disposition| disposition.words().eq_ignore_ascii_case(words.trim()))
    }
}

/// How a sitting ends before the run does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Leave {
    /// Planned: go on another time.
    Suspend,
    /// Something is wrong: every protection is verified again before anything goes on.
    Stop,
}

/// What happened.
#[expect(missing_docs, reason = "the fields are what their names say")]
#[derive(Clone, Debug, PartialEq)]
pub enum Event {
    /// The run began.
    Started(Start),
    /// Who fills a role.
    PersonNamed { role: Name, person: String },
    /// The odometer at the start.
    OdometerRead(Entry),
    /// A value of this vehicle that the sheet does not give, and where it was found.
    VehicleValueGiven { name: Name, value: Answered, source: String },
    /// A hazard was read and understood, before a step.
    Acknowledged { step: StepId, hazard: Name },
    /// A statement of a hold point is true.
    Confirmed { hold: Name, item: usize },
    /// A statement of a hold point is not true; this is how it is.
    Contradicted { hold: Name, item: usize, state: String },
    /// A hold point was released by the person of this role.
    Released { hold: Name, role: Name },
    /// A step was picked among those that may come in any order.
    Picked(StepId),
    /// A reading was taken.
    Read { reading: Name, value: Answered },
    /// An entry of a reading was wrong, in whatever pass; this is what it was.
    Corrected { reading: Name, entry: u64, value: Answered, reason: String },
    /// These readings are taken again, the earlier ones kept.
    TakenAgain { readings: Vec<Name>, reason: String },
    /// A result outside its limits, or one that cannot be judged, is gone on with.
    Accepted { name: Name, disposition: Disposition, reason: String },
    /// A wait lasted longer than it may.
    LateAccepted { step: StepId, wait: Name, disposition: Disposition, reason: String },
    /// A step was done.
    Done(StepId),
    /// A step does not apply, although no condition says so; the lead has to agree.
    NotApplicable { step: StepId, reason: String },
    /// A step is put off, at the latest until just before another.
    Deferred { step: StepId, before: StepId, reason: String },
    /// A remark.
    Noted(String),
    /// Something that a protection rests on was moved or used.
    Disturbed(String),
    /// The sitting ended, with the state that things are left in and what comes first next time.
    Left { how: Leave, reason: String, state: String, first: Option<String> },
    /// The run was taken up again; after a long break these steps are looked at again.
    Resumed { look_again: Vec<StepId> },
    /// The resume brief was read.
    BriefAccepted,
    /// What is decided about a deviation.
    Disposed { deviation: usize, disposition: Disposition, reason: String },
    /// On the way through the steps.
    Flow(FlowEvent),
    /// Among people.
    People(PeopleEvent),
    /// At a group of fasteners.
    Fastening(FasteningEvent),
    /// In taking a reading.
    Taking(TakingEvent),
    /// Before, between and after.
    Interruption(InterruptionEvent),
    /// Everything is done; nothing can be added.
    Closed,
}

impl Event {
    /// Whether it is work at the vehicle, in contrast to words about it.
    pub(crate) fn is_work(&self) -> bool {
        match self.itself() {
            Self::Done(_) | Self::Read { .. } | Self::Confirmed { .. } | Self::Released { .. } => true,
            Self::Fastening(event) => matches!(event, FasteningEvent::Tightened { .. }),
            Self::People(event) => event.is_look(),
            _ => false,
        }
    }
}
