//! From an answer to an event at a group of fasteners.

use crate::procedure::Name;
use crate::quantity::{Entry, parse_entry};
use crate::run::fastening::event::{FasteningAnswer, FasteningAsk, FasteningEvent, Spot};
use crate::run::prompt::{Answer, Prompt};
use crate::run::refusal::Refusal;
use crate::run::typed::filled;
use crate::run::view::View;

/// What an answer makes of a question of this family.
pub(in crate::run) fn asked(
    view: View<'_>,
    prompt: &Prompt,
    ask: &FasteningAsk,
    answer: Answer,
) -> Result<FasteningEvent, Refusal> {
    let is_held = view.book.hold_of_fasteners(ask.group()).is_some();
    match (ask.clone(), answer) {
        (_, Answer::Accept { .. }) if is_held => {
            Err(Refusal::HoldPoint("gone on with when a place is not good"))
        }
        (_, Answer::Fastening(FasteningAnswer::Skip { .. })) if is_held => {
            Err(Refusal::HoldPoint("released with a place left out"))
        }
        (FasteningAsk::SetStage { group, stage }, Answer::Fastening(FasteningAnswer::StageSet)) => {
            Ok(FasteningEvent::StageSet { group, stage })
        }
        (FasteningAsk::Tighten(at), Answer::Done) => Ok(FasteningEvent::Tightened { at, reached: None }),
        (FasteningAsk::Reach(at), Answer::Typed { text, .. }) => {
            let reached = Some(read(view, &at, &text)?);
            Ok(FasteningEvent::Tightened { at, reached })
        }
        (FasteningAsk::Nominal(at), Answer::Good) => Ok(judged(view, prompt, at, None)),
        (FasteningAsk::Nominal(at), Answer::NotGood { state }) => {
            Ok(judged(view, prompt, at, Some(filled("what is wrong", state)?)))
        }
        (FasteningAsk::Failed(at), Answer::Again { reason }) => {
            Ok(FasteningEvent::Again { at, reason: filled("what was done about it", reason)? })
        }
        (FasteningAsk::Failed(at), Answer::Accept { disposition, reason }) => {
            Ok(FasteningEvent::Accepted { at, disposition, reason: filled("the reason", reason)? })
        }
        (
            FasteningAsk::Tighten(at) | FasteningAsk::Reach(at) | FasteningAsk::Failed(at),
            Answer::Fastening(FasteningAnswer::Skip { reason }),
        ) => Ok(FasteningEvent::Skipped { at, reason: filled("the reason", reason)? }),
        _ => Err(Refusal::NotAsked { asked: Box::new(prompt.ask.clone()) }),
    }
}

fn judged(view: View<'_>, prompt: &Prompt, at: Spot, wrong: Option<String>) -> FasteningEvent {
    FasteningEvent::Judged { at, person: view.judges(prompt.step).to_owned(), wrong }
}

fn read(view: View<'_>, at: &Spot, text: &str) -> Result<Entry, Refusal> {
    let group = view.book.procedure.fastener_group(&at.group);
    let stage = group.and_then(|group| group.stages.get(at.stage)).ok_or(Refusal::NotOffered)?;
    let entry = parse_entry(text, &view.unit_of_stage(stage)).map_err(Refusal::Unreadable)?;
    if entry.typed.number.is_negative() {
        return Err(Refusal::Negative(entry.typed.to_string()));
    }
    Ok(entry)
}

/// A value that was entered for a place before, in whatever pass.
pub(in crate::run) fn correct(
    view: View<'_>,
    at: Spot,
    entry: Option<u64>,
    text: &str,
    reason: String,
) -> Result<FasteningEvent, Refusal> {
    let entries = view.reached_at(&at);
    let entry = entries.into_iter().rfind(|(_, act)| entry.is_none_or(|entry| entry == act.stamp.seq));
    let Some((_, act)) = entry else {
        return Err(Refusal::NeverTaken { reading: at.words(view) });
    };
    let reached = read(view, &at, text)?;
    Ok(FasteningEvent::Corrected { at, entry: act.stamp.seq, reached, reason: filled("the reason", reason)? })
}

/// Something was loosened again.
pub(in crate::run) fn loosened(
    view: View<'_>,
    group: Name,
    position: Option<String>,
    reason: String,
) -> Result<FasteningEvent, Refusal> {
    let what = view.book.procedure.called(&group).to_owned();
    if !view.is_tightening_begun(&group) {
        return Err(Refusal::NothingTightened { what });
    }
    let places = view.tightening(&group).and_then(Result::ok).map(|group| group.places).unwrap_or_default();
    if let Some(position) = position.as_ref().filter(|position| !places.contains(position)) {
        return Err(Refusal::NoSuchPlace { position: position.clone(), places });
    }
    Ok(FasteningEvent::Loosened { group, position, reason: filled("the reason", reason)? })
}
