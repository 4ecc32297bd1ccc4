//! The resume brief, told as a colleague would: how it was left, what protects, what comes next.

use super::{result, words};
use crate::procedure::{Name, StepId};
use crate::run::{Leave, View};
use crate::terminal::{Line, Role, Text};

/// How many of the last steps are told.
const LAST_STEPS: usize = 3;

/// What somebody has to know who takes the run up again.
pub(super) fn brief(view: View<'_>) -> Text {
    Text::from(Line::new().with(Role::Strong, "Resume brief"))
        .line(left(view))
        .then(last_steps(view))
        .then(super::fastening::brief(view))
        .then(deferred(view))
        .then(waits(view))
        .then(super::clocks::jumps(view))
        .then(deviations(view))
}

fn left(view: View<'_>) -> Line {
    let Some(left) = &view.state.left else {
        return Line::new()
            .with(Role::Strong, "Left: ")
            .with(
                Role::Plain,
                "the last sitting ended without a word on the state of things. Look at the vehicle first.",
            )
            .hang(2);
    };
    let how = match left.how {
        Leave::Suspend => "suspended",
        Leave::Stop => "STOPPED",
    };
    let when = words::clock(&left.stamp.at, view.now);
    let words = format!("{how} {when}, because: {}. State of things: {}.", left.reason, left.state);
    Line::new().with(Role::Strong, "Left: ").with(Role::Plain, words).hang(2)
}

fn last_steps(view: View<'_>) -> Text {
    let mut done: Vec<(u64, StepId)> =
        view.state.completed.iter().map(|(step, stamp)| (stamp.seq, *step)).collect();
    done.sort_unstable();
    let last =
        done.iter().rev().take(LAST_STEPS).rev().filter_map(|(_, step)| view.book.procedure.step(*step));
    last.fold(Text::new(), |text, step| {
        let line = format!("Done: {} {}", step.number, words::text(view, &step.text));
        let text = text.line(Line::plain(line).hang(2));
        let results = step.takes.iter().chain(&step.computes);
        results.fold(text, |text, name| text.then(result::result(view, name)))
    })
}

fn deferred(view: View<'_>) -> Text {
    let number = |step| view.book.procedure.step(step).map(|step| step.number.as_str()).unwrap_or_default();
    view.state.deferred.iter().fold(Text::new(), |text, (step, deferral)| {
        let words = format!(
            "Deferred: step {}, before {}: {}",
            number(*step),
            number(deferral.before),
            deferral.reason
        );
        text.line(Line::plain(words).hang(2))
    })
}

fn waits(view: View<'_>) -> Text {
    let waits = view.running_waits().into_iter();
    waits.fold(Text::new(), |text, wait| text.line(super::clocks::clock(view, &wait)))
}

fn deviations(view: View<'_>) -> Text {
    let open = view.state.undisposed();
    open.fold(Text::new(), |text, (place, deviation)| {
        let words = format!("Deviation {} without a disposition: {}", place + 1, deviation.reason);
        text.line(Line::plain(words).hang(2))
    })
}

/// What somebody has to know who takes over a role.
pub(super) fn for_turnover(view: View<'_>, role: &Name) -> Text {
    let incoming = view.state.people_facts.incoming.get(role);
    let from = incoming.map(|incoming| incoming.from.as_str()).unwrap_or_default();
    let person = view.state.people.get(role).map(String::as_str).unwrap_or_default();
    let head = Line::new()
        .with(Role::Strong, "Turnover: ")
        .with(Role::Plain, format!("{person} takes over as {role} from {from}."))
        .hang(2);
    let note = incoming.and_then(|incoming| incoming.note.as_ref()).map(|note| {
        Line::new().with(Role::Strong, format!("{from} says: ")).with(Role::Plain, note.as_str()).hang(2)
    });
    let text = note.or_else(|| view.state.left.as_ref().map(|_| left(view))).into_iter();
    let text = text.fold(Text::from(head), Text::line);
    let text = text.then(last_steps(view)).then(deferred(view)).then(waits(view)).then(deviations(view));
    text.line(Line::plain("Talk it through: say back what is open and what comes next, then accept.").hang(2))
}

/// The pre-job brief: what can hurt, who does what, where it stops, the word that stops it.
pub(super) fn before_the_job(view: View<'_>) -> Text {
    let procedure = &view.book.procedure;
    let head = Line::new().with(Role::Strong, "Pre-job brief: ").with(
        Role::Plain,
        "say this aloud to everybody who has a part in it. Anybody stops the job at any time with `!`.",
    );
    let role = |role: &Name| {
        let what = procedure.what(role).unwrap_or_default();
        let person = view.state.people.get(role).map(String::as_str).unwrap_or_default();
        format!("{person} ({role}): {what}")
    };
    let hazards = procedure.hazards().iter();
    let hazards = hazards.map(|(_, hazard)| format!("{} {}", hazard.signal.word(), hazard.hazard));
    let holds = procedure.holds().iter().map(|(_, hold)| hold.what.clone());
    Text::from(head.hang(2))
        .then(listed("Roles", procedure.roles().names().map(role)))
        .then(listed("Hazards", hazards))
        .then(listed("Hold points", holds))
}

fn listed(title: &str, items: impl Iterator<Item = String>) -> Text {
    let items: Vec<String> = items.collect();
    let words = if items.is_empty() { "none".to_owned() } else { items.join("; ") };
    Line::new().with(Role::Strong, format!("{title}: ")).with(Role::Plain, words).hang(2).into()
}
