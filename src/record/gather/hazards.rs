//! Hazards that were read and understood.

use crate::record::model::Acknowledgement;
use crate::record::turn::Turn;
use crate::run::Event;

#[derive(Default)]
pub(in crate::record) struct Hazards(pub(in crate::record) Vec<Acknowledgement>);

impl Hazards {
    pub(in crate::record) fn see(&mut self, turn: Turn<'_>) {
        let Event::Acknowledged { step, hazard } = turn.event else {
            return;
        };
        let procedure = &turn.book.procedure;
        let Some(declared) = procedure.hazard(hazard) else {
            return;
        };
        self.0.push(Acknowledgement {
            signal: declared.signal.word().to_owned(),
            hazard: declared.hazard.clone(),
            step: procedure.step(*step).map(|step| step.number.clone()).unwrap_or_default(),
            when: turn.moment(),
        });
    }
}
