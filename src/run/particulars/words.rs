//! What is said of particulars.

use crate::procedure::Name;
use crate::run::particulars::event::{ParticularAnswer, ParticularAsk, ParticularEvent};
use crate::run::prompt::Answer;
use crate::run::view::View;

impl ParticularAsk {
    /// Where the run stands, in a word.
    pub fn label(&self) -> String {
        let (Self::Instrument(name) | Self::Overdue(name) | Self::Critical(name)) = self;
        name.to_string()
    }
}

impl ParticularEvent {
    /// The answer that made it.
    pub(crate) fn answer(&self) -> Answer {
        Answer::Particular(match self.clone() {
            Self::Instrument { tool, identity, due } => {
                ParticularAnswer::Instrument { tool, identity, due: due.to_string() }
            }
            Self::OverdueAccepted { disposition, reason, .. } => {
                return Answer::Accept { disposition, reason };
            }
            Self::Typed { text, .. } => ParticularAnswer::Typed(text),
            Self::OdometerCorrected { value, reason } => {
                ParticularAnswer::CorrectOdometer { text: value.text, reason }
            }
            Self::VehicleValueCorrected { name, value, source, reason } => {
                ParticularAnswer::CorrectVehicleValue { name, text: value.as_typed(), source, reason }
            }
        })
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
                let before = view.state.particulars.odometer.last().map(|before| before.value.shown());
                format!("odometer corrected: {}, before {}", value.typed, before.unwrap_or_default())
            }
            Self::VehicleValueCorrected { name, value, .. } => {
                let before = view.state.particulars.vehicle.get(name).and_then(|before| before.last());
                let before = before.map(|before| before.value.shown()).unwrap_or_default();
                format!("{} corrected: {}, before {before}", what(name), value.shown())
            }
        }
    }

    /// The person's reason, where there is one.
    pub fn reason(&self) -> Option<&str> {
        match self {
            Self::OverdueAccepted { reason, .. }
            | Self::OdometerCorrected { reason, .. }
            | Self::VehicleValueCorrected { reason, .. } => Some(reason),
            Self::Instrument { .. } | Self::Typed { .. } => None,
        }
    }
}
