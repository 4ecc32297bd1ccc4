//! Remarks, and what was said beside the work, in the words in which it was told when it was entered.

use super::work::moment;
use crate::record::model::Note;
use crate::run::{Event, LateEntry, Stamp, View};

#[derive(Default)]
pub(in crate::record) struct Notes(pub(in crate::record) Vec<Note>);

impl Notes {
    /// `view` is the run after the event.
    pub(in crate::record) fn see(&mut self, view: View<'_>, event: &Event, stamp: &Stamp) {
        if let Some(late) = event.late() {
            self.put("late entry", told(late_words(view, event.itself(), late), Some(&late.reason)), stamp);
        }
        let (kind, text) = match event.itself() {
            Event::Noted(text) => ("note", text.clone()),
            Event::Disturbed { what, hold } => {
                let hold = hold.as_ref().map(|hold| format!(" ({})", view.book.procedure.called(hold)));
                ("disturbed", format!("{what}{}", hold.unwrap_or_default()))
            }
            Event::Flow(event) => ("way", told(event.words(view), event.reason())),
            Event::Interruption(event) => ("between", told(event.words(view), event.reason())),
            Event::People(event) => ("people", told(event.words(view), event.reason())),
            Event::Loose(event) => ("loose end", told(event.words(view), event.reason())),
            Event::Particular(event) => ("particular", told(event.words(view), event.reason())),
            _ => return,
        };
        self.put(kind, text, stamp);
    }

    fn put(&mut self, kind: &str, text: String, stamp: &Stamp) {
        self.0.push(Note { kind: kind.to_owned(), text, when: moment(stamp) });
    }
}

/// What was entered late, and when it was done.
fn late_words(view: View<'_>, event: &Event, late: &LateEntry) -> String {
    let procedure = &view.book.procedure;
    let what = match event {
        Event::Done(step) => procedure.step(*step).map(|step| format!("step {}", step.number)),
        Event::Read { reading, .. } => procedure.what(reading).map(str::to_owned),
        Event::Fastening(event) => Some(event.words(view)),
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
