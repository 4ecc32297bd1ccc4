//! Whether a run came about as a run can: each event is what the state before it allows.

use super::finding::Finding;
use crate::run::{Answer, Answered, Book, Event, Input, ParticularAnswer, SlipCheck, Stamp, State, decide};

/// What is wrong with an event, where no answer could have made it in this state.
pub(super) fn not_permitted(book: &Book, state: &State, event: &Event, stamp: &Stamp) -> Option<Finding> {
    let why = match decide(book, state, input(event, state), &stamp.at) {
        Ok(allowed) if allowed.event == *event && allowed.place.as_ref() == stamp.place.as_deref() => {
            return None;
        }
        Ok(_) => "the answer as typed gives something else".to_owned(),
        Err(refusal) => refusal.to_string(),
    };
    Some(Finding::NotPermitted { entry: stamp.seq, why })
}

/// What must have come in for this event.
fn input(event: &Event, state: &State) -> Input {
    match event {
        Event::Started(start) => Input::Start((**start).clone()),
        Event::Resumed { .. } => Input::Resume,
        other => Input::Answer(said(other, state).unwrap_or_else(|| done(other))),
    }
}

/// The answers that carry words.
fn said(event: &Event, state: &State) -> Option<Answer> {
    Some(match event.clone() {
        Event::PersonNamed { person, .. } => Answer::Person(person),
        Event::OdometerRead(entry) => Answer::Particular(ParticularAnswer::Odometer(entry.text)),
        Event::VehicleValueGiven { value, source, .. } => Answer::Sourced { text: value.as_typed(), source },
        Event::Contradicted { state, .. } => Answer::Untrue { state },
        Event::Released { role, .. } => {
            Answer::Release { said: state.people.get(&role).cloned().unwrap_or_default() }
        }
        Event::Read { value: Answered::File(file), .. } => Answer::Particular(ParticularAnswer::File(file)),
        Event::Corrected { reading, entry, value: Answered::File(file), reason } => {
            Answer::Particular(ParticularAnswer::CorrectFile { reading, entry: Some(entry), file, reason })
        }
        Event::Read { value, .. } => typed(value.as_typed()),
        Event::Corrected { reading, entry, value, reason } => {
            Answer::Correct { reading, entry: Some(entry), text: value.as_typed(), reason }
        }
        Event::TakenAgain { reason, .. } => Answer::Again { reason },
        Event::Accepted { disposition, reason, .. } | Event::LateAccepted { disposition, reason, .. } => {
            Answer::Accept { disposition, reason }
        }
        Event::NotApplicable { reason, .. } => Answer::NotApplicable { reason },
        Event::Deferred { before, reason, .. } => Answer::Defer { before, reason },
        Event::Noted(text) => Answer::Note(text),
        Event::Disturbed { what, hold } => Answer::Disturbed { what, hold },
        Event::Left { how, reason, state, first } => Answer::Leave { how, reason, state, first },
        Event::Disposed { disposition, reason, .. } => Answer::Dispose { disposition, reason },
        Event::Flow(event) => event.answer(),
        Event::People(event) => event.answer(),
        Event::Fastening(event) => event.answer(),
        Event::Particular(event) => event.answer(),
        Event::Loose(event) => Answer::Loose(event.answer()),
        Event::Late(late) => Answer::Late(late.answer()),
        Event::Interruption(event) => Answer::Interruption(event.answer()),
        _ => return None,
    })
}

/// The answers that are one key.
fn done(event: &Event) -> Answer {
    match event {
        Event::Acknowledged { .. } => Answer::Acknowledge,
        Event::Confirmed { .. } => Answer::True,
        Event::Picked(step) => Answer::Pick(*step),
        Event::BriefAccepted => Answer::AcceptBrief,
        Event::Closed => Answer::Close,
        _ => Answer::Done,
    }
}

fn typed(text: String) -> Answer {
    Answer::Typed { text, slip: SlipCheck::Sure }
}
