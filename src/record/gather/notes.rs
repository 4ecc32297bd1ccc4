//! Remarks, and what was disturbed.

use crate::record::model::Note;
use crate::record::turn::Turn;
use crate::run::{Event, LateEntry};

#[derive(Default)]
pub(in crate::record) struct Notes(pub(in crate::record) Vec<Note>);

impl Notes {
    pub(in crate::record) fn see(&mut self, turn: Turn<'_>) {
        if let Some(late) = turn.late {
            self.put("late entry", told(late_words(turn, late), Some(&late.reason)), turn);
        }
        let (kind, text) = match turn.event {
            Event::Noted(text) => ("note", text.clone()),
            Event::Disturbed(what) => ("disturbed", what.clone()),
            Event::Flow(event) => ("way", told(event.words(turn.view()), event.reason())),
            Event::People(event) => ("people", told(event.words(turn.view()), event.reason())),
            Event::Taking(event) => ("taking", told(event.words(turn.view()), event.reason())),
            _ => return,
        };
        self.put(kind, text, turn);
    }

    fn put(&mut self, kind: &str, text: String, turn: Turn<'_>) {
        self.0.push(Note { kind: kind.to_owned(), text, when: turn.moment() });
    }
}

/// What was entered late, and when it was done.
fn late_words(turn: Turn<'_>, late: &LateEntry) -> String {
    let procedure = &turn.book.procedure;
    let what = match turn.event {
        Event::Done(step) => procedure.step(*step).map(|step| format!("step {}", step.number)),
        Event::Read { reading, .. } => procedure.what(reading).map(str::to_owned),
        Event::Fastening(event) => Some(event.words(turn.view())),
        _ => None,
    };
    let what = what.map(|what| format!("{what}, ")).unwrap_or_default();
    format!("{what}{}", late.words())
}

/// What happened, and the person's reason.
fn told(words: String, reason: Option<&str>) -> String {
    match reason {
        Some(reason) => format!("{words}. Reason: {reason}"),
        None => words,
    }
}
