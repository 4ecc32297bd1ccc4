//! Putting an entry right: what it really is, and what was wrong with it.

use super::keys::inner_line;
use super::{Turn, refused};
use crate::run::{Answer, Input, View, decide};
use crate::terminal::Ui;

/// What stands for the words that are asked for only once the value can be read.
pub(super) const DRAFT: &str = "draft";

/// A value that would be taken, whatever is said of it afterwards: one that would be refused is asked for again at once,
/// before more is typed that would be lost with it.
pub(super) fn value(
    ui: &mut dyn Ui,
    view: View<'_>,
    question: &str,
    correction: impl Fn(String) -> Answer,
) -> Result<String, Turn> {
    loop {
        let text = inner_line(ui, question)?;
        match decide(view.book, view.state, Input::Answer(correction(text.clone())), view.now) {
            Ok(_) => return Ok(text),
            Err(refusal) => ui.say(&refused(&refusal)).map_err(Turn::Broken)?,
        }
    }
}

/// What was wrong with the entry.
pub(super) fn wrong(ui: &mut dyn Ui) -> Result<String, Turn> {
    inner_line(ui, "What was wrong with the entry? ")
}
