//! How a reading is taken: its instrument, when it was really taken, what is typed before a critical act.

use std::collections::BTreeMap;

use jiff::civil::Date;

use crate::procedure::{Name, StepId};
use crate::quantity::Entry;
use crate::run::apply::Next;
use crate::run::event::{Answered, Disposition, Event, KeptFile, Stamp};
use crate::run::prompt::{Ask, Prompt};
use crate::run::readings::instruments::Instrument;
use crate::run::readings::lateness::{self, LateAnswer, LateEntry};
use crate::run::readings::revised::Replaced;
use crate::run::refusal::Refusal;
use crate::run::view::View;
use crate::run::{
    readings::entry, readings::instruments, readings::kept_file, readings::revised, step::critical_act,
};

/// What can happen.
#[expect(missing_docs, reason = "the fields are what their names say")]
#[derive(Clone, Debug, PartialEq)]
pub enum TakingEvent {
    /// Which instrument stands for a tool, and when its calibration comes due.
    Instrument { tool: Name, identity: String, due: Date },
    /// An instrument is used although its calibration is overdue.
    OverdueAccepted { tool: Name, disposition: Disposition, reason: String },
    /// What a critical act asks for was typed.
    Typed { step: StepId, act: Name, text: String },
    /// The odometer was entered wrongly; this is what it was.
    OdometerCorrected { value: Entry, reason: String },
    /// A value of the vehicle is not what was entered, or what the sheet says.
    VehicleValueCorrected { name: Name, value: Answered, source: String, reason: String },
    /// Something was done before it was entered.
    Late(LateEntry),
}

/// What is asked.
#[derive(Clone, Debug, PartialEq)]
pub enum TakingAsk {
    /// Which instrument is it, and when does its calibration come due?
    Instrument(Name),
    /// The calibration of this instrument is overdue: what now?
    Overdue(Name),
    /// What does this critical act ask for?
    Critical(Name),
}

/// What is answered.
#[expect(missing_docs, reason = "the fields are what their names say")]
#[derive(Clone, Debug, PartialEq)]
pub enum TakingAnswer {
    /// This instrument, due on this day. Can be said at any time.
    Instrument { tool: Name, identity: String, due: String },
    /// Use it although it is overdue.
    AcceptOverdue { disposition: Disposition, reason: String },
    /// What was typed before a critical act.
    Typed(String),
    /// This file, for a reading that asks for one.
    File(KeptFile),
    /// Another file than the one given before.
    CorrectFile { reading: Name, entry: Option<u64>, file: KeptFile, reason: String },
    /// What the odometer shows; told once, at any time, whether it is asked for or not.
    Odometer(String),
    /// The odometer was entered wrongly.
    CorrectOdometer { text: String, reason: String },
    /// A value of the vehicle is another.
    CorrectVehicleValue { name: Name, text: String, source: String, reason: String },
    /// It was done before.
    Late(LateAnswer),
}

/// What is known of how readings were taken.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Takings {
    /// Which instruments stood for a tool, in order.
    pub instruments: BTreeMap<Name, Vec<Instrument>>,
    /// When the run was last taken up again.
    pub resumed: Option<Stamp>,
    /// What the odometer was said to show before, in order.
    pub odometer: Vec<Replaced>,
    /// What values of the vehicle were before, in order.
    pub vehicle: BTreeMap<Name, Vec<Replaced>>,
}

impl TakingAsk {
    /// Where the run stands, in a word.
    pub fn label(&self) -> String {
        let (Self::Instrument(name) | Self::Overdue(name) | Self::Critical(name)) = self;
        name.to_string()
    }
}

impl TakingEvent {
    /// The answer that made it.
    pub(crate) fn answer(&self) -> TakingAnswer {
        match self.clone() {
            Self::Instrument { tool, identity, due } => {
                TakingAnswer::Instrument { tool, identity, due: due.to_string() }
            }
            Self::OverdueAccepted { disposition, reason, .. } => {
                TakingAnswer::AcceptOverdue { disposition, reason }
            }
            Self::Typed { text, .. } => TakingAnswer::Typed(text),
            Self::OdometerCorrected { value, reason } => {
                TakingAnswer::CorrectOdometer { text: value.text, reason }
            }
            Self::VehicleValueCorrected { name, value, source, reason } => {
                TakingAnswer::CorrectVehicleValue { name, text: value.as_typed(), source, reason }
            }
            Self::Late(late) => TakingAnswer::Late(late.answer()),
        }
    }

    /// What happened, in a few words; `view` is the run after it.
    pub fn words(&self, view: View<'_>) -> String {
        let what = |name: &Name| view.book.procedure.called(name).to_owned();
        match self {
            Self::Instrument { tool, identity, due } => {
                format!("{}: {identity}, calibration due {due}", what(tool))
            }
            Self::OverdueAccepted { tool, .. } => {
                format!("{} used overdue; deviation {} recorded", what(tool), view.state.deviations.len())
            }
            Self::Typed { act, text, .. } => format!("typed \"{text}\" before: {}", what(act)),
            Self::OdometerCorrected { value, .. } => {
                let before = view.state.taking.odometer.last().map(|before| before.value.shown());
                format!("odometer corrected: {}, before {}", value.typed, before.unwrap_or_default())
            }
            Self::VehicleValueCorrected { name, value, .. } => {
                let before = view.state.taking.vehicle.get(name).and_then(|before| before.last());
                let before = before.map(|before| before.value.shown()).unwrap_or_default();
                format!("{} corrected: {}, before {before}", what(name), value.shown())
            }
            Self::Late(late) => late.words(),
        }
    }

    /// The person's reason, where there is one.
    pub fn reason(&self) -> Option<&str> {
        match self {
            Self::OverdueAccepted { reason, .. }
            | Self::OdometerCorrected { reason, .. }
            | Self::VehicleValueCorrected { reason, .. }
            | Self::Late(LateEntry { reason, .. }) => Some(reason),
            Self::Instrument { .. } | Self::Typed { .. } => None,
        }
    }
}

/// What an answer makes.
pub(in crate::run) fn decide(
    view: View<'_>,
    prompt: &Prompt,
    answer: TakingAnswer,
) -> Result<Event, Refusal> {
    match answer {
        TakingAnswer::Instrument { tool, identity, due } => {
            instruments::name(view, tool, identity, &due).map(Event::Taking)
        }
        TakingAnswer::Odometer(text) if view.state.odometer.is_none() => entry::odometer(view, &text),
        TakingAnswer::CorrectOdometer { text, reason } => {
            revised::odometer(view, &text, reason).map(Event::Taking)
        }
        TakingAnswer::CorrectVehicleValue { name, text, source, reason } => {
            revised::vehicle_value(view, name, &text, revised::Why { source, reason }).map(Event::Taking)
        }
        TakingAnswer::CorrectFile { reading, entry, file, reason } => {
            kept_file::correct(view, reading, entry, file, reason)
        }
        TakingAnswer::Late(late) => lateness::decide(view, prompt, late),
        other => prompted(view, prompt, other),
    }
}

fn prompted(view: View<'_>, prompt: &Prompt, answer: TakingAnswer) -> Result<Event, Refusal> {
    match (&prompt.ask, prompt.step, answer) {
        (Ask::Taking(TakingAsk::Overdue(tool)), _, TakingAnswer::AcceptOverdue { disposition, reason }) => {
            instruments::accept_overdue(tool, disposition, reason).map(Event::Taking)
        }
        (Ask::Taking(TakingAsk::Critical(act)), Some(step), TakingAnswer::Typed(text)) => {
            critical_act::typed(view, step, act, &text).map(Event::Taking)
        }
        (Ask::Reading(reading), _, TakingAnswer::File(file)) => kept_file::read(view, reading, file),
        (ask, _, _) => Err(Refusal::NotAsked { asked: Box::new(ask.clone()) }),
    }
}

impl Next<'_> {
    pub(in crate::run) fn taking(&mut self, event: &TakingEvent) {
        match event {
            TakingEvent::Instrument { tool, identity, due } => self.name_instrument(tool, identity, *due),
            TakingEvent::OverdueAccepted { tool, disposition, reason } => {
                self.use_overdue(tool, *disposition, reason);
            }
            TakingEvent::Typed { act, .. } => {
                let stamp = self.stamp.clone();
                self.said().typed.push((act.clone(), stamp));
            }
            TakingEvent::OdometerCorrected { value, reason } => self.correct_odometer(value, reason),
            TakingEvent::VehicleValueCorrected { name, value, source, reason } => {
                let why = revised::Why { source: source.clone(), reason: reason.clone() };
                self.correct_vehicle_value(name, value, &why);
            }
            TakingEvent::Late(late) => self.late_entry(late),
        }
    }
}
