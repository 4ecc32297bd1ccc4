//! Where a run stands, in a word.

use crate::run::prompt::{Ask, Prompt};
use crate::run::view::View;

/// Where the odometer is asked for, and what it is called where it is told unasked.
pub(crate) const ODOMETER: &str = "odometer";

/// Where it is asked what becomes of a loose end.
pub(crate) const LOOSE_END: &str = "loose end";

impl Prompt {
    /// Where the run stands, in a word: the name of what is asked for, or the number of the step.
    pub fn label(&self, view: View<'_>) -> String {
        let number =
            || self.step.and_then(|step| view.book.procedure.step(step)).map(|step| step.number.clone());
        match &self.ask {
            Ask::Resting => "resume".to_owned(),
            Ask::Finished => "finished".to_owned(),
            Ask::Brief => "brief".to_owned(),
            Ask::Odometer => ODOMETER.to_owned(),
            Ask::Person(name)
            | Ask::VehicleValue(name)
            | Ask::Acknowledge(name)
            | Ask::Reading(name)
            | Ask::Failed(name)
            | Ask::Wait { wait: name, .. }
            | Ask::Late { wait: name, .. }
            | Ask::Release { hold: name, .. }
            | Ask::Confirm { hold: name, .. } => name.to_string(),
            Ask::Pick(_) => "pick".to_owned(),
            Ask::Do => number().unwrap_or_default(),
            Ask::Dispose(deviation) => format!("deviation {}", deviation + 1),
            Ask::Flow(ask) => ask.label(view),
            Ask::People(ask) => ask.label(&number().unwrap_or_default()),
            Ask::Fastening(ask) => ask.label(view),
            Ask::Particular(ask) => ask.label(),
            Ask::Interruption(ask) => ask.label(view),
            Ask::LooseEnd(_) => LOOSE_END.to_owned(),
            Ask::Close => "close".to_owned(),
        }
    }
}
