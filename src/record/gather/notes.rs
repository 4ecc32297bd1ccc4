//! Remarks, and what was disturbed.

use crate::record::model::Note;
use crate::record::turn::Turn;
use crate::run::Event;

#[derive(Default)]
pub(in crate::record) struct Notes(pub(in crate::record) Vec<Note>);

impl Notes {
    pub(in crate::record) fn see(&mut self, turn: Turn<'_>) {
        let (kind, text) = match turn.event {
            Event::Noted(text) => ("note", text.clone()),
            Event::Disturbed(what) => ("disturbed", what.clone()),
            Event::Flow(event) => ("way", told(event.words(turn.view()), event.reason())),
            Event::Taking(event) => ("taking", told(event.words(turn.view()), event.reason())),
            _ => return,
        };
        self.0.push(Note { kind: kind.to_owned(), text, when: turn.moment() });
    }
}

/// What happened, and the person's reason.
fn told(words: String, reason: Option<&str>) -> String {
    match reason {
        Some(reason) => format!("{words}. Reason: {reason}"),
        None => words,
    }
}
