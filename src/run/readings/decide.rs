//! From an answer to what happens in taking a reading, and to the state after it.

use crate::run::apply::Next;
use crate::run::event::Event;
use crate::run::prompt::{Ask, Prompt};
use crate::run::readings::event::{TakingAnswer, TakingAsk, TakingEvent};
use crate::run::readings::{entry, instruments, kept_file, revised};
use crate::run::refusal::Refusal;
use crate::run::step::critical_act;
use crate::run::view::View;

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
        }
    }
}
