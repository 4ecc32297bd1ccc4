//! From an answer to what is recorded of particulars, and to the state after it.

use crate::run::apply::Next;
use crate::run::event::Event;
use crate::run::particulars::event::{ParticularAnswer, ParticularAsk, ParticularEvent};
use crate::run::particulars::{instruments, revised};
use crate::run::prompt::{Ask, Prompt};
use crate::run::readings::{entry, kept_file};
use crate::run::refusal::Refusal;
use crate::run::step::critical_act;
use crate::run::view::View;

/// What an answer makes.
pub(in crate::run) fn decide(
    view: View<'_>,
    prompt: &Prompt,
    answer: ParticularAnswer,
) -> Result<Event, Refusal> {
    match answer {
        ParticularAnswer::Instrument { tool, identity, due } => {
            instruments::name(view, tool, identity, &due).map(Event::Particular)
        }
        ParticularAnswer::Odometer(text) if view.state.odometer.is_none() => entry::odometer(view, &text),
        ParticularAnswer::CorrectOdometer { text, reason } => {
            revised::odometer(view, &text, reason).map(Event::Particular)
        }
        ParticularAnswer::CorrectVehicleValue { name, text, source, reason } => {
            revised::vehicle_value(view, name, &text, revised::Why { source, reason }).map(Event::Particular)
        }
        ParticularAnswer::CorrectFile { reading, entry, file, reason } => {
            kept_file::correct(view, reading, entry, file, reason)
        }
        other => prompted(view, prompt, other),
    }
}

fn prompted(view: View<'_>, prompt: &Prompt, answer: ParticularAnswer) -> Result<Event, Refusal> {
    match (&prompt.ask, prompt.step, answer) {
        (
            Ask::Particular(ParticularAsk::Overdue(tool)),
            _,
            ParticularAnswer::AcceptOverdue { disposition, reason },
        ) => instruments::accept_overdue(tool, disposition, reason).map(Event::Particular),
        (Ask::Particular(ParticularAsk::Critical(act)), Some(step), ParticularAnswer::Typed(text)) => {
            critical_act::typed(view, step, act, &text).map(Event::Particular)
        }
        (Ask::Reading(reading), _, ParticularAnswer::File(file)) => kept_file::read(view, reading, file),
        (ask, _, _) => Err(Refusal::NotAsked { asked: Box::new(ask.clone()) }),
    }
}

impl Next<'_> {
    pub(in crate::run) fn particular(&mut self, event: &ParticularEvent) {
        match event {
            ParticularEvent::Instrument { tool, identity, due } => self.name_instrument(tool, identity, *due),
            ParticularEvent::OverdueAccepted { tool, disposition, reason } => {
                self.use_overdue(tool, *disposition, reason);
            }
            ParticularEvent::Typed { act, .. } => {
                let stamp = self.stamp.clone();
                self.said().typed.push((act.clone(), stamp));
            }
            ParticularEvent::OdometerCorrected { value, reason } => self.correct_odometer(value, reason),
            ParticularEvent::VehicleValueCorrected { name, value, source, reason } => {
                let why = revised::Why { source: source.clone(), reason: reason.clone() };
                self.correct_vehicle_value(name, value, &why);
            }
        }
    }
}
