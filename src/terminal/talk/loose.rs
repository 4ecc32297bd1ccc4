//! Loose ends: what is left to be done, and what becomes of it.

use super::question::Question;
use super::{Turn, keys};
use crate::run::{Answer, EndId, LooseAnswer, LooseEnd, LooseEvent, View};
use crate::terminal::{KeyHint, Line, Role, Text, Ui};

/// Before the last run of a job is closed: what became of this one?
pub(super) fn ask(question: &mut Question<'_>, end: &EndId) -> Result<Answer, Turn> {
    let keys = keys::with_common(&OUTCOMES);
    let key = question.key("", &keys)?;
    became(question.ui, end.clone(), key)
}

const OUTCOMES: [(char, &str); 2] = [('d', "settled"), ('k', "carry it out of the job")];

/// At any time: note one, or say what became of one.
pub(super) fn loose(ui: &mut dyn Ui, view: View<'_>) -> Result<Answer, Turn> {
    let open = view.open_ends();
    let note = "note a new one".to_owned();
    let items: Vec<String> = std::iter::once(note).chain(open.iter().map(|end| end.what.clone())).collect();
    let place = if open.is_empty() { 0 } else { keys::inner_choice(ui, "Loose ends", &items)? };
    let Some(end) = place.checked_sub(1).and_then(|place| open.get(place)) else {
        let what = keys::inner_line(ui, "What is left to be done (part to order, bolt to renew)? ")?;
        return Ok(Answer::Loose(LooseAnswer::Note { what }));
    };
    ui.say(&told(end)).map_err(Turn::Broken)?;
    let hints = OUTCOMES.map(|(key, does)| KeyHint::new(key, does));
    let hints: Vec<KeyHint> = hints.into_iter().chain([KeyHint::back("leave it open")]).collect();
    let key = keys::inner_key(ui, "", &hints)?;
    if OUTCOMES.iter().all(|(own, _)| *own != key) {
        return Err(Turn::Again);
    }
    became(ui, end.id.clone(), key)
}

fn became(ui: &mut dyn Ui, end: EndId, key: char) -> Result<Answer, Turn> {
    Ok(Answer::Loose(if key == 'd' {
        LooseAnswer::Settle { end, how: keys::inner_line(ui, "How was it settled? ")? }
    } else {
        let by = keys::inner_line(ui, "Who sees to it (a name)? ")?;
        LooseAnswer::CarryOut { end, by, why: keys::inner_line(ui, "Why does it stay undone? ")? }
    }))
}

/// What is shown with the question.
pub(super) fn asked(view: View<'_>, id: &EndId) -> Text {
    view.loose_ends().iter().find(|end| end.id == *id).map(told).unwrap_or_default()
}

fn told(end: &LooseEnd<'_>) -> Text {
    let words = format!("{} ({})", end.what, end.left_at);
    Line::new().with(Role::Strong, "Loose end: ").with(Role::Plain, words).hang(2).into()
}

/// The loose ends that are open, a line each.
pub(super) fn open(view: View<'_>) -> Text {
    view.open_ends().iter().fold(Text::new(), |text, end| text.then(told(end)))
}

/// The question in a few words.
pub(super) fn question(view: View<'_>, id: &EndId) -> String {
    let ends = view.loose_ends();
    let end = ends.iter().find(|end| end.id == *id);
    format!("loose end, {}:", end.map(|end| end.what.as_str()).unwrap_or_default())
}

/// What is done in place of the question, and what is said with it.
pub(super) fn aside(view: View<'_>, answer: &LooseAnswer) -> (String, String) {
    match answer {
        LooseAnswer::Note { what } => ("loose end:".to_owned(), what.clone()),
        LooseAnswer::Settle { end, how } => (question(view, end), format!("settled, {how}")),
        LooseAnswer::CarryOut { end, by, why } => {
            (question(view, end), format!("carried out of the job, {by} sees to it; {why}"))
        }
    }
}

/// What is said after an event.
pub(super) fn after(view: View<'_>, event: &LooseEvent) -> Text {
    super::result::last(&event.words(view))
}
