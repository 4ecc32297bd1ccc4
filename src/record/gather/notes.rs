//! Remarks, and what was disturbed.

use crate::record::model::Note;
use crate::record::turn::Turn;
use crate::run::Event;

#[derive(Default)]
pub(in crate::record) struct Notes(pub(in crate::record) Vec<Note>);

impl Notes {
    pub(in crate::record) fn see(&mut self, turn: Turn<'_>) {
        let (kind, text) = match turn.event {
            Event::Noted(text) => ("note", text),
            Event::Disturbed(what) => ("disturbed", what),
            _ => return,
        };
        self.0.push(Note { kind: kind.to_owned(), text: text.clone(), when: turn.moment() });
    }
}
