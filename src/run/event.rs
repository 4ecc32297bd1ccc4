//! What can happen in a run. One answer makes one event, one event makes one line of the journal.

use jiff::ZonedDateTime;

use crate::procedure::{Name, StepId};
use crate::quantity::Entry;
use crate::run::answered::{Answered, Disposition, Leave};
use crate::run::fastening::event::FasteningEvent;
use crate::run::flow::event::FlowEvent;
use crate::run::loose::event::LooseEvent;
use crate::run::particulars::event::ParticularEvent;
use crate::run::people::event::PeopleEvent;
use crate::run::sitting::event::InterruptionEvent;
use crate::run::stamp::Start;

/// What happened.
#[expect(missing_docs, reason = "the fields are what their names say")]
#[derive(Clone, Debug, PartialEq)]
pub enum Event {
    /// The run began. It says so much that every other entry would be as large.
    Started(Box<Start>),
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
    /// Something was moved or used on which the hold point rests, or whatever rests on what can be moved.
    Disturbed { what: String, hold: Option<Name> },
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
    /// Particulars: an instrument, a file, what was typed, what the vehicle is.
    Particular(ParticularEvent),
    /// Of loose ends.
    Loose(LooseEvent),
    /// Something was done before it was entered.
    Late(LateEntry),
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

/// Something that was done before it was entered.
#[derive(Clone, Debug, PartialEq)]
pub struct LateEntry {
    /// What happened.
    pub event: Box<Event>,
    /// When it was done, by a person's word, to the second.
    pub done: ZonedDateTime,
    /// Why it is entered late: `from paper`.
    pub reason: String,
}
