//! What can be said of a group of fasteners at any question.

use crate::procedure::Name;
use crate::run::{Answer, FasteningAnswer, FasteningEvent, Spot, View};
use crate::terminal::Ui;
use crate::terminal::talk::Turn;
use crate::terminal::talk::keys::{inner_choice, inner_line};
use crate::terminal::talk::put_right::{DRAFT, value, wrong};

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

/// The values that were reached, in whatever pass: the entry of each, its place, its words.
pub(in crate::terminal::talk) fn correctable(view: View<'_>) -> Vec<(u64, Spot, String)> {
    let acts = view
        .state
        .tree
        .all()
        .flat_map(|(at, occurrence)| occurrence.said.acts.iter().map(move |act| (at, act)));
    let reached = acts.filter_map(|(at, act)| match &act.event {
        FasteningEvent::Tightened { at: spot, reached: Some(reached) } => {
            let step = view.book.step_of_fasteners(&spot.group)?;
            let pass = view.inside(at).pass_words(step).map(|pass| format!(" ({pass})")).unwrap_or_default();
            let words = format!("{}{pass}: {}", spot.words(view), reached.typed);
            Some((act.stamp.seq, spot.clone(), words))
        }
        _ => None,
    });
    reached.collect()
}

/// What was really reached at a place, and what was wrong.
pub(in crate::terminal::talk) fn corrected(
    ui: &mut dyn Ui,
    view: View<'_>,
    entry: u64,
    at: &Spot,
) -> Result<Answer, Turn> {
    let corrected = |text: String, reason: String| {
        Answer::Fastening(FasteningAnswer::Correct { at: at.clone(), entry: Some(entry), text, reason })
    };
    let text = value(ui, view, "What was it really? ", |text| corrected(text, DRAFT.to_owned()))?;
    Ok(corrected(text, wrong(ui)?))
}
