//! From an answer to an event at a group of fasteners.

use crate::procedure::Name;
use crate::quantity::{Entry, parse_entry};
use crate::run::event::Event;
use crate::run::fastening::event::{FasteningAnswer, FasteningAsk, FasteningEvent, Spot};
use crate::run::prompt::{Answer, Ask, Prompt};
use crate::run::refusal::Refusal;
use crate::run::typed::filled;
use crate::run::view::View;

/// What a common answer means at a group of fasteners; given back where it means nothing of its own.
pub(in crate::run) fn meant(answer: Answer) -> Result<FasteningAnswer, Answer> {
    match answer {
        Answer::Done => Ok(FasteningAnswer::Tightened),
        Answer::Typed { text, .. } => Ok(FasteningAnswer::Reached { text }),
        Answer::Good => Ok(FasteningAnswer::Judged { wrong: None }),
        Answer::NotGood { state } => Ok(FasteningAnswer::Judged { wrong: Some(state) }),
        Answer::Again { reason } => Ok(FasteningAnswer::Again { reason }),
        Answer::Accept { disposition, reason } => Ok(FasteningAnswer::Accept { disposition, reason }),
        other => Err(other),
    }
}

/// What an answer makes.
pub(in crate::run) fn decide(
    view: View<'_>,
    prompt: &Prompt,
    answer: FasteningAnswer,
) -> Result<Event, Refusal> {
    match answer {
        FasteningAnswer::Loosened { group, position, reason } => loosened(view, group, position, reason),
        FasteningAnswer::Correct { at, entry, text, reason } => correct(view, at, entry, &text, reason),
        other => prompted(view, prompt, other),
    }
    .map(Event::Fastening)
}

fn prompted(view: View<'_>, prompt: &Prompt, answer: FasteningAnswer) -> Result<FasteningEvent, Refusal> {
    let not_asked = || Refusal::NotAsked { asked: Box::new(prompt.ask.clone()) };
    let Ask::Fastening(ask) = prompt.ask.clone() else {
        return Err(not_asked());
    };
    let is_held = view.book.hold_of_fasteners(ask.group()).is_some();
    match (ask, answer) {
        (_, FasteningAnswer::Accept { .. }) if is_held => {
            Err(Refusal::HoldPoint("gone on with when a place is not good"))
        }
        (_, FasteningAnswer::Skip { .. }) if is_held => {
            Err(Refusal::HoldPoint("released with a place left out"))
        }
        (FasteningAsk::SetStage { group, stage }, FasteningAnswer::StageSet) => {
            Ok(FasteningEvent::StageSet { group, stage })
        }
        (FasteningAsk::Tighten(at), FasteningAnswer::Tightened) => {
            Ok(FasteningEvent::Tightened { at, reached: None })
        }
        (FasteningAsk::Reach(at), FasteningAnswer::Reached { text }) => {
            let reached = Some(read(view, &at, &text)?);
            Ok(FasteningEvent::Tightened { at, reached })
        }
        (FasteningAsk::Nominal(at), FasteningAnswer::Judged { wrong }) => {
            let step = prompt.step.and_then(|step| view.book.procedure.step(step));
            let person = step.map_or("", |step| view.judges(step)).to_owned();
            let wrong = wrong.map(|wrong| filled("what is wrong", wrong)).transpose()?;
            Ok(FasteningEvent::Judged { at, person, wrong })
        }
        (FasteningAsk::Failed(at), FasteningAnswer::Again { reason }) => {
            Ok(FasteningEvent::Again { at, reason: filled("what was done about it", reason)? })
        }
        (FasteningAsk::Failed(at), FasteningAnswer::Accept { disposition, reason }) => {
            Ok(FasteningEvent::Accepted { at, disposition, reason: filled("the reason", reason)? })
        }
        (
            FasteningAsk::Tighten(at) | FasteningAsk::Reach(at) | FasteningAsk::Failed(at),
            FasteningAnswer::Skip { reason },
        ) => Ok(FasteningEvent::Skipped { at, reason: filled("the reason", reason)? }),
        _ => Err(not_asked()),
    }
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
fn correct(
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

fn loosened(
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
