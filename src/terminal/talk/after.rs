//! What is said after an answer.

use super::result::{last, number, result};
use crate::procedure::Name;
use crate::run::{Ask, Event, FlowEvent, OccurrenceId, PeopleAsk, PeopleEvent, View};
use crate::terminal::{Line, Text};

/// What is said after an event.
pub(super) fn after(view: View<'_>, event: &Event) -> Text {
    let late = event.late().map(|late| Text::plain(&late.words()));
    late.into_iter().fold(after_itself(view, event.itself()), Text::then)
}

fn after_itself(view: View<'_>, event: &Event) -> Text {
    match event {
        Event::Read { .. } | Event::Corrected { .. } => results(view, event),
        Event::OdometerRead(entry) if is_bare(&entry.text) => last(&format!("odometer: {}", entry.typed)),
        Event::VehicleValueGiven { name, value, .. } if is_bare(&value.as_typed()) => {
            last(&format!("{}: {}", view.book.procedure.called(name), value.shown()))
        }
        Event::NotApplicable { step, .. } => {
            last(&format!("{}: it is said that it does not apply", number(view, *step)))
        }
        Event::Deferred { step, before, .. } => {
            last(&format!("{} comes back before {}", number(view, *step), number(view, *before)))
        }
        // That it protects now stands with what is in force.
        Event::Released { hold, .. } if view.protections().iter().any(|one| one.hold == hold) => Text::new(),
        Event::Released { hold, .. } if view.stands(hold) => {
            last(&format!("hold point released: {}", view.book.procedure.called(hold)))
        }
        Event::Contradicted { state, .. } => last(&format!("not so: {state}. The hold point stays shut")),
        Event::Noted(_) => last("remark kept"),
        Event::Disturbed { .. } => last("kept; what rests on it is verified again before the work goes on"),
        Event::Accepted { .. } | Event::LateAccepted { .. } => {
            last(&format!("deviation {} recorded", view.state.deviations.len()))
        }
        Event::Flow(flow) => results(view, event).then(super::flow::after(view, flow)),
        // Those present were named a moment ago.
        Event::People(PeopleEvent::Briefed { .. }) => Text::new(),
        Event::People(event) => super::people::after(view, event),
        Event::Fastening(event) => super::fastening::after(view, event),
        Event::Particular(event) => super::particular::after(view, event),
        Event::Loose(event) => super::loose::after(view, event),
        Event::Late(late) => last(&late.words()),
        Event::Interruption(event) => super::interruption::after(view, event),
        _ => Text::new(),
    }
}

/// Whether a number was typed alone: it is shown with the unit that it was taken in.
fn is_bare(typed: &str) -> bool {
    typed.chars().all(|char| !char.is_alphabetic())
}

/// The results that an event brings: a reading with its verdict, the values that rest on it.
pub(super) fn results(view: View<'_>, event: &Event) -> Text {
    match event.itself() {
        Event::Read { reading, .. } | Event::Corrected { reading, .. } => after_reading(view, reading),
        Event::Flow(FlowEvent::PassEnded { repeat, .. }) => super::clocks::late_row(view, repeat),
        Event::Fastening(event) => super::fastening::results(view, event),
        _ => Text::new(),
    }
}

/// What happened without an answer of its own.
pub(super) fn by_itself(view: View<'_>, event: &Event) -> Text {
    match event {
        Event::Flow(flow) => results(view, event).line(Line::plain(flow.words(view))),
        _ => results(view, event),
    }
}

/// The reading, and the values of its step that are now complete. What has failed, or is to be judged by a person, is
/// told by the question that follows.
fn after_reading(view: View<'_>, reading: &Name) -> Text {
    if view.is_blind(reading) {
        return last("first reading kept; it stays out of sight until the second is taken");
    }
    let step = view.book.procedure.taken_at(reading).and_then(|step| view.book.procedure.step(step));
    let all_taken = step.is_some_and(|step| step.takes.iter().all(|name| view.is_taken(name)));
    let computed = step.filter(|_| all_taken).map(|step| step.computes.as_slice()).unwrap_or_default();
    let failed = match view.inside(OccurrenceId::RUN).next().ask {
        Ask::Failed(name) | Ask::People(PeopleAsk::Nominal(name)) => Some(name),
        _ => None,
    };
    let told = std::iter::once(reading).chain(computed).filter(|name| failed.as_ref() != Some(name));
    told.fold(Text::new(), |text, name| text.then(result(view, name)))
}
