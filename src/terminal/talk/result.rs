//! What came of an answer: the result, where it fell, how far from its limits.

use super::words;
use crate::procedure::Name;
use crate::quantity::{Entry, Limit, Outcome, Quantity};
use crate::run::{
    Answered, Ask, Event, FlowEvent, Judged, Judgement, OccurrenceId, PeopleAsk, StepResult, View,
};
use crate::terminal::{Fell, Gauge, Line, Mark, Role, Text};

/// What is said after an event.
pub(super) fn after(view: View<'_>, event: &Event) -> Text {
    let late = event.late().map(|late| Text::plain(&late.words()));
    late.into_iter().fold(after_itself(view, event.itself()), Text::then)
}

fn after_itself(view: View<'_>, event: &Event) -> Text {
    match event {
        Event::Read { .. } | Event::Corrected { .. } => results(view, event),
        Event::Done(step) => last(&format!("{} done", number(view, *step))),
        Event::NotApplicable { step, .. } => {
            last(&format!("{}: it is said that it does not apply", number(view, *step)))
        }
        Event::Deferred { step, before, .. } => {
            last(&format!("{} comes back before {}", number(view, *step), number(view, *before)))
        }
        Event::Released { hold, .. } if view.stands(hold) => {
            last(&format!("hold point released: {}", view.book.procedure.called(hold)))
        }
        Event::Contradicted { state, .. } => last(&format!("not so: {state}. The hold point stays shut")),
        Event::Acknowledged { .. } => last("hazard acknowledged"),
        Event::Noted(_) => last("remark kept"),
        Event::Disturbed(_) => last("kept; what rests on it is verified again before the work goes on"),
        Event::Accepted { .. } | Event::LateAccepted { .. } => {
            last(&format!("deviation {} recorded", view.state.deviations.len()))
        }
        Event::Flow(flow) => results(view, event).then(super::flow::after(view, flow)),
        Event::People(event) => super::people::after(view, event),
        Event::Fastening(event) => super::fastening::after(view, event),
        Event::Particular(event) => super::particular::after(view, event),
        Event::Late(late) => last(&late.words()),
        Event::Interruption(event) => super::interruption::after(view, event),
        _ => Text::new(),
    }
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

pub(super) fn last(words: &str) -> Text {
    Line::new().with(Role::Strong, "Last: ").with(Role::Plain, words).hang(2).into()
}

pub(super) fn number(view: View<'_>, step: crate::procedure::StepId) -> String {
    view.book.procedure.step(step).map(|step| format!("step {}", step.number)).unwrap_or_default()
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

/// A reading or a value with its verdict and its gauge.
pub(super) fn result(view: View<'_>, name: &Name) -> Text {
    if view.is_blind(name) {
        return Text::new();
    }
    let judged = view.judge(name);
    judged.map_or_else(Text::new, |judged| {
        told(view, &StepResult { name, shown: words::known(view, name), judged })
    })
}

/// The same of a result of a step at one of its occurrences.
pub(super) fn told(view: View<'_>, came: &StepResult<'_>) -> Text {
    let StepResult { name, judged, .. } = came;
    let shown = match (view.trace(name), &judged.quantity) {
        (Some(trace), Some(quantity)) => Some(trace.show_in(&quantity.unit)),
        _ => came.shown.clone(),
    };
    let shown = shown.map(|shown| format!("{shown}: ")).unwrap_or_default();
    let (role, verdict) = verdict(judged);
    let line = Line::new()
        .with(Role::Strong, format!("{}: ", view.book.procedure.called(name)))
        .with(Role::Plain, shown)
        .with(role, verdict)
        .hang(2);
    gauge(judged).into_iter().fold(Text::new().line(line), Text::gauge)
}

/// What was reached, with its verdict and its gauge.
pub(super) fn judged_line(what: &str, entry: &Entry, judged: &Judged) -> Text {
    let (role, verdict) = verdict(judged);
    let shown = words::answered(&Answered::Quantity(entry.clone()));
    let line = Line::new()
        .with(Role::Strong, format!("{what}: "))
        .with(Role::Plain, format!("{shown}: "))
        .with(role, verdict)
        .hang(2);
    gauge(judged).into_iter().fold(Text::new().line(line), Text::gauge)
}

fn verdict(judged: &Judged) -> (Role, String) {
    let said = judged.judgement.to_string();
    let passes = judged.judgement.lets_go_on() && judged.judgement.own().lets_go_on();
    let role = match (judged.judgement.own(), passes) {
        (Judgement::InformationOnly | Judgement::Nominal(_, None) | Judgement::NotYet(_), _) => Role::Plain,
        (_, true) => Role::Good,
        (_, false) => Role::Bad,
    };
    let wanted = judged.limits.as_ref().filter(|_| role == Role::Good);
    let wanted = wanted.map(|limits| format!("; wanted {limits}")).unwrap_or_default();
    let certainty = judged.certainty.as_ref().map(|certainty| format!("; {certainty}")).unwrap_or_default();
    (role, format!("{said}{wanted}{certainty}"))
}

fn gauge(judged: &Judged) -> Option<Gauge> {
    let (limits, quantity) = (judged.limits.as_ref()?, judged.quantity.as_ref()?);
    let Judgement::Limits(verdict, _) = judged.judgement.own() else {
        return None;
    };
    let fell = match (verdict.outcome == Outcome::Pass, &limits.lower) {
        (true, _) => Fell::Inside,
        (false, Some(lower)) if is_under(quantity, lower) => Fell::Below,
        (false, _) => Fell::Above,
    };
    let gauge = Gauge::new(mark(quantity, quantity), fell);
    let gauge = limits.lower.iter().fold(gauge, |gauge, limit| gauge.lower(mark(&limit.quantity, quantity)));
    Some(limits.upper.iter().fold(gauge, |gauge, limit| gauge.upper(mark(&limit.quantity, quantity))))
}

fn is_under(quantity: &Quantity, lower: &Limit) -> bool {
    quantity.compare(&lower.quantity).is_ok_and(std::cmp::Ordering::is_le)
}

fn mark(quantity: &Quantity, beside: &Quantity) -> Mark {
    let shown = quantity.in_unit(&beside.unit).unwrap_or_else(|_| quantity.clone());
    Mark::new(quantity.base().to_f64(), shown.to_string())
}
