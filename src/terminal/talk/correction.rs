//! Correcting what was entered: which entry, what it really is, what was wrong.

use super::keys::{inner_choice, inner_line};
use super::{Turn, fastening, refused, taking, words};
use crate::procedure::{Name, ReadingKind};
use crate::run::{Answer, Input, View, decide};
use crate::terminal::Ui;

/// Corrects an entry: which, what it was, why.
pub(super) fn correct(ui: &mut dyn Ui, view: View<'_>) -> Result<Answer, Turn> {
    let taken: Vec<_> = view.state.readings.keys().cloned().collect();
    let shown: Vec<String> = taken
        .iter()
        .map(|name| {
            let what = view.book.procedure.called(name);
            format!("{what}: {}", words::known(view, name).unwrap_or_default())
        })
        .collect();
    let entered = taking::entered(view);
    let reached = fastening::correctable(view);
    let of_vehicle = entered.iter().map(|(_, shown)| shown.clone());
    let of_fasteners = reached.iter().map(|(_, words)| words.clone());
    let all: Vec<String> = shown.into_iter().chain(of_fasteners).chain(of_vehicle).collect();
    let place = inner_choice(ui, "Which entry was wrong", &all)?;
    let beyond = place.checked_sub(taken.len());
    if let Some((at, _)) = beyond.and_then(|place| reached.get(place)) {
        return fastening::corrected(ui, view, at);
    }
    if let Some((entered, _)) = beyond.and_then(|place| entered.get(place.checked_sub(reached.len())?)) {
        return taking::correct(ui, view, entered);
    }
    of_reading(ui, view, &taken[place.min(taken.len() - 1)])
}

fn of_reading(ui: &mut dyn Ui, view: View<'_>, reading: &Name) -> Result<Answer, Turn> {
    let corrected = |text: String, reason: String| Answer::Correct { reading: reading.clone(), text, reason };
    let text = match view.book.procedure.reading(reading).map(|reading| &reading.kind) {
        Some(ReadingKind::Choice { choices, .. }) => {
            let place = inner_choice(ui, "What was it really?", choices)?;
            choices[place.min(choices.len() - 1)].clone()
        }
        // Only when it is kept is a file looked at.
        Some(ReadingKind::File) => inner_line(ui, "What was it really? ")?,
        _ => value(ui, view, "What was it really? ", |text| corrected(text, DRAFT.to_owned()))?,
    };
    Ok(corrected(text, wrong(ui)?))
}

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
