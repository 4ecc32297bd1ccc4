//! What can be said of a group of fasteners at any question.

use crate::procedure::Name;
use crate::run::{Answer, FasteningAnswer, Spot, View};
use crate::terminal::Ui;
use crate::terminal::talk::Turn;
use crate::terminal::talk::correction::{self, DRAFT};
use crate::terminal::talk::keys::{inner_choice, inner_line};

/// The groups at which something was done in the present pass.
pub(in crate::terminal::talk) fn begun(view: View<'_>) -> Vec<Name> {
    let groups = view.book.procedure.fasteners().names();
    groups.filter(|group| view.is_tightening_begun(group)).cloned().collect()
}

/// Something was loosened again: of which group, which place, why.
pub(in crate::terminal::talk) fn loosened(ui: &mut dyn Ui, view: View<'_>) -> Result<Answer, Turn> {
    let groups = begun(view);
    let what = |group: &Name| view.book.procedure.called(group).to_owned();
    let place = match groups.len() {
        1 => 0,
        _ => inner_choice(ui, "Of which group", &groups.iter().map(what).collect::<Vec<_>>())?,
    };
    let group = groups.get(place).cloned().ok_or(Turn::Again)?;
    let place = inner_line(ui, "Which place was loosened again (its name, or `all`)? ")?;
    let position = Some(place.trim().to_owned()).filter(|place| place != "all");
    let reason = inner_line(ui, "Why was it loosened? ")?;
    Ok(Answer::Fastening(FasteningAnswer::Loosened { group, position, reason }))
}

/// The values that were reached in the present pass, with their words.
pub(in crate::terminal::talk) fn correctable(view: View<'_>) -> Vec<(Spot, String)> {
    let groups = view.book.procedure.fasteners().names();
    let tightenings = groups.filter_map(|group| view.tightening(group)?.ok());
    let words = |tightening: &crate::run::Tightening<'_>| {
        let reached = tightening.all_reached().into_iter();
        let worded = reached.map(|(at, entry)| {
            let words = format!("{}: {}", at.words(view), entry.typed);
            (at, words)
        });
        worded.collect::<Vec<_>>()
    };
    tightenings.flat_map(|tightening| words(&tightening)).collect()
}

/// What was really reached at a place, and what was wrong.
pub(in crate::terminal::talk) fn corrected(
    ui: &mut dyn Ui,
    view: View<'_>,
    at: &Spot,
) -> Result<Answer, Turn> {
    let corrected = |text: String, reason: String| {
        Answer::Fastening(FasteningAnswer::Correct { at: at.clone(), text, reason })
    };
    let text = correction::value(ui, view, "What was it really? ", |text| corrected(text, DRAFT.to_owned()))?;
    Ok(corrected(text, correction::wrong(ui)?))
}
