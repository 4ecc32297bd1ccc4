//! The resume brief, told as a colleague would: when and why it was left, how things stand, what protects, what was done
//! last, what comes next.

use super::{hazard, result, words};
use crate::procedure::{Name, Signal, Step};
use crate::run::{Away, Before, Leave, Part, PassEnd, View};
use crate::terminal::{Line, Role, Text};

/// What somebody has to know who takes the run up again.
pub(super) fn brief(view: View<'_>) -> Text {
    Text::from(Line::new().with(Role::Strong, "Resume brief"))
        .then(left(view))
        .then(protections(view))
        .then(last_steps(view))
        .then(passes(view))
        .then(super::fastening::brief(view))
        .then(deferred(view))
        .then(waits(view))
        .then(super::clocks::jumps(view))
        .then(deviations(view))
        .then(super::loose::open(view))
        .then(hazards(view))
        .then(ahead(view))
}

fn left(view: View<'_>) -> Text {
    let text = match &view.state.left {
        None => unsaid(view),
        Some(left) => {
            let how = match left.how {
                Leave::Suspend => "You suspended the job",
                Leave::Stop => "You STOPPED the job",
            };
            let when = words::clock(&left.stamp.at, view.now);
            let ago = words::span(left.stamp.at.duration_until(view.now));
            let words = format!("{how} {when} ({ago} ago), because: {}.", left.reason);
            said("You left things like this", &left.state).line(Line::plain(words).hang(2))
        }
    };
    let found = view.state.interruption.found.as_ref();
    let text =
        found.iter().fold(text, |text, (state, _)| text.then(said("Things stand like this now", state)));
    let first = view.state.left.as_ref().and_then(|left| left.first.as_ref());
    first.into_iter().fold(text, |text, first| text.then(said("First next time, you said", first)))
}

fn said(what: &str, words: &str) -> Text {
    Line::new().with(Role::Strong, format!("{what}: ")).with(Role::Plain, format!("{words}.")).hang(2).into()
}

/// When the last sitting ended, where nobody said that it does.
pub(super) fn unsaid(view: View<'_>) -> Text {
    let Some(away) = view.state.interruption.away.as_ref().filter(|_| view.state.left.is_none()) else {
        return Text::new();
    };
    let ago = words::span(away.lasted());
    let when = words::clock(&away.since.at, view.now);
    let words = format!("The last sitting broke off {when} ({ago} before you came back), without a word.");
    Line::plain(words).hang(2).into()
}

fn protections(view: View<'_>) -> Text {
    let protections = view.protections();
    let inherited = view.inherited_protections().map(words::inherited(view.now));
    let inherited = inherited.fold(Text::new(), |text, words| {
        let line = Line::new().with(Role::Strong, "In force: ").with(Role::Protection, words);
        text.line(line.hang(2))
    });
    if protections.is_empty() && inherited == Text::new() {
        return Line::plain("No protection is in force.").into();
    }
    protections.into_iter().fold(inherited, |text, protection| {
        let since = words::clock(&protection.since.at, view.now);
        let line = Line::new().with(Role::Strong, "In force: ").with(
            Role::Protection,
            format!("{}, released by {} ({since}).", protection.what, view.releaser_of(protection.hold)),
        );
        let lapsed = protection.lapsed.map(|why| format!(" It has LAPSED ({why}): verify it again first."));
        text.line(line.with(Role::Bad, lapsed.unwrap_or_default()).hang(2))
    })
}

fn last_steps(view: View<'_>) -> Text {
    let last = view.last_done();
    let head = if last.is_empty() { Text::new() } else { Text::plain("Done last:") };
    last.into_iter().fold(head, |text, step| done(view, step, text))
}

/// A step that was done, with its results.
pub(super) fn done(view: View<'_>, step: &Step, text: Text) -> Text {
    let line = Line::plain(format!("{} {}", step.number, words::text(view, &step.text)));
    let text = text.line(line.indent(2).hang(2));
    let results = step.takes.iter().chain(&step.computes);
    results.fold(text, |text, name| text.then(result::result(view, name).indented(4)))
}

/// The passes that were made of what is repeated where the work goes on.
fn passes(view: View<'_>) -> Text {
    let around = view.next_step().map(|step| view.book.repeats_over(Part::Step(step.id))).unwrap_or_default();
    around.into_iter().fold(Text::new(), |text, repeat| {
        let Some(round) = view.round(repeat).filter(|round| !round.ended.is_empty()) else {
            return text;
        };
        let what = view.book.procedure.called(repeat);
        let last = round.ended.last().and_then(|pass| view.state.at(*pass).end.as_ref());
        let last = match last.map(|ending| &ending.how) {
            Some(PassEnd::Invalid(reason)) => format!(" The last does not: {reason}."),
            _ => String::new(),
        };
        let words = format!(
            "Passes so far, {what}: {} made, {} count.{last}",
            round.ended.len(),
            round.counting.len()
        );
        text.line(Line::plain(words).hang(2))
    })
}

fn deferred(view: View<'_>) -> Text {
    let steps = view.book.procedure.steps().iter().filter(|step| !view.is_settled(step));
    let deferred = steps.filter_map(|step| Some((step, view.deferral(step)?)));
    deferred.fold(Text::new(), |text, (step, deferral)| {
        let until = match deferral.before {
            Before::Step(_) => "before",
            Before::EndOf(_) => "at",
        };
        let before = deferral.before.words(view.book);
        let words =
            format!("Put off: step {}; it comes back {until} {before}. {}.", step.number, deferral.reason);
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
        let departure = view.departure(&deviation.departure);
        let words =
            format!("Deviation {} has no disposition yet: {departure}. {}.", place + 1, deviation.reason);
        text.line(Line::plain(words).hang(2))
    })
}

/// The dangers of the step that comes next, and of its section.
fn hazards(view: View<'_>) -> Text {
    let procedure = &view.book.procedure;
    let step = view.next_step();
    let section = step.and_then(|step| procedure.section(step.section));
    let names = section.into_iter().flat_map(|section| &section.hazards);
    let names = names.chain(step.into_iter().flat_map(|step| &step.hazards));
    let hazards = names.filter_map(|name| procedure.hazard(name));
    let live = hazards.filter(|hazard| matches!(hazard.signal, Signal::Danger | Signal::Warning));
    live.fold(Text::new(), |text, hazard| text.line(hazard::hazard_line(hazard)))
}

/// What is asked next, and what is looked at again before.
fn ahead(view: View<'_>) -> Text {
    let again = view.state.interruption.away.as_ref().is_some_and(Away::is_long);
    let again = again && !view.state.interruption.recheck.is_empty();
    let text = if again {
        Text::plain("So long after, look at what was done last again; it is asked step by step.")
    } else {
        Text::new()
    };
    let Some(step) = view.next_step() else {
        return text;
    };
    let exactly = exactly(view, step).map(|place| format!(", {place}")).unwrap_or_default();
    let words = format!("step {}{exactly}: {}", step.number, words::text(view, &step.text));
    text.line(Line::new().with(Role::Strong, "Next: ").with(Role::Plain, words).hang(2))
}

/// Where in a step the work stands: which pass.
fn exactly(view: View<'_>, step: &Step) -> Option<String> {
    view.pass_words(step.id)
}

/// What somebody has to know who takes over a role.
pub(super) fn for_turnover(view: View<'_>, role: &Name) -> Text {
    let incoming = view.state.people.incoming(role);
    let from = incoming.map(|incoming| incoming.from.as_str()).unwrap_or_default();
    let person = view.state.people.get(role).map(String::as_str).unwrap_or_default();
    let head = Line::new()
        .with(Role::Strong, "Turnover: ")
        .with(Role::Plain, format!("{person} takes over as {role} from {from}."))
        .hang(2);
    let note = incoming.and_then(|incoming| incoming.note.as_ref()).map(|note| {
        Line::new().with(Role::Strong, format!("{from} says: ")).with(Role::Plain, note.as_str()).hang(2)
    });
    let told = note.map_or_else(|| left(view), Text::from);
    let text = Text::from(head).then(told);
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
