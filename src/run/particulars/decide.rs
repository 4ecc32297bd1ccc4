//! From an answer to what is recorded of particulars, and to the state after it.

use crate::run::apply::Next;
use crate::run::particulars::event::{ParticularAnswer, ParticularAsk, ParticularEvent};
use crate::run::particulars::{instruments, revised};
use crate::run::prompt::{Answer, Prompt};
use crate::run::refusal::Refusal;
use crate::run::step::critical_act;
use crate::run::view::View;

/// What an answer makes of a question of this family.
pub(in crate::run) fn asked(
    view: View<'_>,
    prompt: &Prompt,
    ask: &ParticularAsk,
    answer: Answer,
) -> Result<ParticularEvent, Refusal> {
    match (ask, prompt.step, answer) {
        (ParticularAsk::Overdue(tool), _, Answer::Accept { disposition, reason }) => {
            instruments::accept_overdue(tool, disposition, reason)
        }
        (ParticularAsk::Critical(act), Some(step), Answer::Particular(ParticularAnswer::Typed(text))) => {
            critical_act::typed(view, step, act, &text)
        }
        _ => Err(Refusal::NotAsked { asked: Box::new(prompt.ask.clone()) }),
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
