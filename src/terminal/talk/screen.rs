//! The screen of a question: where we are, what protects, the step, what comes next.

use super::beside::Beside;
use super::frame::{Told, stands_alone};
use super::hazard::{hazard_line, hazard_name};
use super::words;
use crate::procedure::{Name, Step};
use crate::run::{Ask, Part, Prompt, USUAL, View};
use crate::terminal::{Line, Role, Text};

/// What is shown above a question.
pub(super) struct Screen {
    /// What it says.
    pub(super) text: Text,
    /// Whether the text of the step stands there and names the one reading that it takes.
    pub(super) is_named: bool,
}

/// What is shown above a question. What must never scroll away stands last, right above the prompt: what came of the
/// last answer, where we are, what protects, what comes next.
pub(super) fn screen(
    view: View<'_>,
    prompt: &Prompt,
    last: Text,
    (told, beside): (&mut Told, &Beside),
) -> Screen {
    // What is asked of an earlier pass is shown as it stands in that pass.
    let here = view.inside(prompt.within);
    let step = shown_step(view, prompt);
    let is_again = step.is_some_and(|step| told.has_shown(here, step));
    let body = match step {
        Some(step) if is_again => pointer(here, step, told.keeps()),
        // A warning, and the brief of the whole job, stand by themselves; the step is told once they are read.
        Some(step) if stands_alone(&prompt.ask) => pointer(here, step, false),
        Some(step) => step_text(here, prompt, step),
        None => Text::new(),
    };
    let frame = told.frame(here, prompt, step);
    let parts = [body, asked(here, prompt, is_again, beside), last];
    let above = parts.into_iter().filter(|part| *part != Text::new());
    let text = above.fold(Text::new(), |text, part| text.then(part).blank()).then(frame);
    Screen { text, is_named: !is_again && step.is_some_and(|step| step.takes.len() == 1) }
}

/// The step that a further question belongs to: its beginning, where its text is not in sight any more.
fn pointer(view: View<'_>, step: &Step, is_in_sight: bool) -> Text {
    if is_in_sight {
        return Text::new();
    }
    Line::new().with(Role::Faint, words::pointer(view, step)).hang(2).into()
}

fn shown_step<'run>(view: View<'run>, prompt: &Prompt) -> Option<&'run Step> {
    let id = match &prompt.ask {
        Ask::Pick(steps) => *steps.first()?,
        Ask::Interruption(ask) => ask.step().or(prompt.step)?,
        _ => prompt.step?,
    };
    view.book.procedure.step(id)
}

fn step_text<'run>(view: View<'run>, prompt: &Prompt, step: &'run Step) -> Text {
    let parent = step.parent.and_then(|parent| view.book.procedure.step(parent));
    // The first part of its first pass brings it in full, the others its beginning.
    let begun = |parent| Text::from(Line::new().with(Role::Faint, words::pointer(view, parent)));
    let parent = parent.map(|parent| {
        let is_known = view.is_begun(parent) || has_passed(view, parent);
        if is_known { begun(parent) } else { numbered(view, parent, Role::Faint) }
    });
    let text = parent.unwrap_or_default();
    if matches!(prompt.ask, Ask::Pick(_) | Ask::Interruption(_)) {
        return text;
    }
    let text = introduction(view, step, text);
    let text = hazards(view, prompt, step, text).then(numbered(view, step, Role::Strong));
    let who = words::performers(view, step).map(|who| Line::plain(format!("By: {who}")).indent(2));
    let text = who.into_iter().fold(text, Text::line);
    let passages = step.passages.iter().map(|passage| words::passage(view, passage).indented(2));
    passages.fold(text, Text::then)
}

/// Whether a pass that the step stands in was made before.
fn has_passed(view: View<'_>, step: &Step) -> bool {
    let repeats = view.book.repeats_over(Part::Step(step.id)).into_iter();
    repeats.filter_map(|repeat| view.round(repeat)).any(|round| !round.ended.is_empty())
}

/// What stands before a step is read once, when it begins.
fn introduction<'run>(view: View<'run>, step: &'run Step, text: Text) -> Text {
    if view.is_begun(step) {
        return text;
    }
    let before = view.read_before(step).into_iter();
    before.fold(text, |text, passage| text.then(words::passage(view, passage)).blank())
}

fn numbered(view: View<'_>, step: &Step, role: Role) -> Text {
    words::numbered(&step.number, role, words::text(view, &step.text))
}

/// Every hazard of a step stands before it, but the one that is asked about stands with its question, so that no row of
/// it is out of sight on a small screen. Once read, its name is enough.
fn hazards(view: View<'_>, prompt: &Prompt, step: &Step, text: Text) -> Text {
    let names = view.hazards_over(step).into_iter().chain(&step.hazards);
    let others = names.filter(|name| prompt.ask != Ask::Acknowledge((*name).clone()));
    others.fold(text, |text, name| match view.book.procedure.hazard(name) {
        Some(hazard) if is_read(view, step, name) => text.line(hazard_name(hazard)),
        Some(hazard) => text.line(hazard_line(hazard)).blank(),
        None => text,
    })
}

/// A hold point that is verified again puts the person back before its hazard: it is shown in full. What stands over a
/// whole section is read once for all its steps.
fn is_read(view: View<'_>, step: &Step, hazard: &Name) -> bool {
    if step.hold.as_ref().is_some_and(|hold| view.lapse_of(hold, step.id).is_some()) {
        return false;
    }
    view.is_begun(step) || view.is_hazard_read(step, hazard)
}

fn asked(view: View<'_>, prompt: &Prompt, is_again: bool, beside: &Beside) -> Text {
    match &prompt.ask {
        Ask::Odometer => beside.last_odometer(),
        Ask::Brief => super::brief::brief(view),
        Ask::Acknowledge(hazard) => acknowledge(view, hazard),
        Ask::Do => computed(view, prompt),
        Ask::Reading(name) => super::reading::shown(view, name, beside),
        Ask::Failed(name) => failed(view, name),
        Ask::Confirm { hold, item } => confirm(view, prompt, (hold, *item), is_again),
        Ask::Release { hold, .. } => {
            hold_line(view, prompt, hold, is_again).then(released(view, prompt, hold))
        }
        Ask::Pick(steps) => pick(view, steps),
        Ask::Late { wait, since } => super::clocks::late(view, wait, since),
        Ask::VehicleValue(name) => usual(view, name),
        Ask::Flow(ask) => super::flow::asked(view, ask),
        Ask::People(ask) => super::people::asked(view, prompt, ask, beside),
        Ask::Fastening(ask) => super::fastening::asked(view, ask),
        Ask::Particular(ask) => super::particular::asked(view, ask),
        Ask::Interruption(ask) => super::interruption::asked(view, ask),
        Ask::LooseEnd(end) => super::loose::asked(view, end),
        Ask::Dispose(deviation) => dispose(view, *deviation),
        _ => Text::new(),
    }
}

/// What can be taken where nobody gives the value.
fn usual(view: View<'_>, name: &Name) -> Text {
    let declared = view.book.procedure.vehicle().get(name);
    let Some(usual) = declared.and_then(|value| value.usual.as_ref()) else { return Text::new() };
    let words = format!("{} ({}). Where no source gives it, type `{USUAL}`.", usual.text, usual.why);
    Line::new().with(Role::Strong, "Usual: ").with(Role::Plain, words).hang(2).into()
}

fn acknowledge(view: View<'_>, hazard: &Name) -> Text {
    view.book.procedure.hazard(hazard).map(hazard_line).into_iter().fold(Text::new(), Text::line)
}

/// The values that a step only looks at.
pub(super) fn computed(view: View<'_>, prompt: &Prompt) -> Text {
    let step = prompt.step.and_then(|step| view.book.procedure.step(step));
    let computes = step.into_iter().flat_map(|step| &step.computes);
    computes.fold(Text::new(), |text, name| text.then(super::result::result(view, name)))
}

/// A failed result, and what the procedure says to do about it.
pub(super) fn failed(view: View<'_>, name: &Name) -> Text {
    let fixes = view.what_to_do(name).into_iter();
    let lines =
        fixes.map(|fix| Line::new().with(Role::Strong, "What to do: ").with(Role::Plain, fix).hang(2));
    let other = view.would_pass_as(name);
    let other = other
        .map(|other| Line::plain(format!("Was it another unit? {} would pass.", words::answered(&other))));
    other.into_iter().chain(lines).fold(super::result::result(view, name), Text::line)
}

/// Whoever releases as the second sees what is released: the statements and readings, and by whom they were released.
fn released(view: View<'_>, prompt: &Prompt, name: &Name) -> Text {
    let verification = prompt.step.and_then(|step| view.verification_of(name, step));
    let signed: Vec<&Name> =
        verification.iter().flat_map(|verification| verification.signed.keys()).collect();
    let (Some(hold), Some(first)) = (view.book.procedure.hold(name), signed.first()) else {
        return Text::new();
    };
    let person = view.state.people.get(first).map(String::as_str).unwrap_or_default();
    let head = Line::plain(format!("{person} ({first}) released this. Look at each:")).hang(2);
    let statements = hold.confirm.iter().cloned();
    let read = hold.readings.iter().filter_map(|reading| {
        Some(format!("{}: {}", view.book.procedure.called(reading), words::known(view, reading)?))
    });
    let items = statements.chain(read);
    items.fold(Text::from(head), |text, item| text.line(Line::marked("-", item).indent(2)))
}

fn confirm(view: View<'_>, prompt: &Prompt, (name, item): (&Name, usize), is_again: bool) -> Text {
    let Some(hold) = view.book.procedure.hold(name) else {
        return Text::new();
    };
    let statement = hold.confirm.get(item).map(String::as_str).unwrap_or_default();
    let count = format!("{} of {}: ", item + 1, hold.confirm.len());
    let line = Line::new().with(Role::Plain, count).with(Role::Strong, statement).indent(2).hang(2);
    let text = hold_line(view, prompt, name, is_again).line(line);
    let verification = prompt.step.and_then(|step| view.verification_of(name, step));
    match verification.as_ref().and_then(|verification| verification.contradicted.get(&item)) {
        Some(state) => text.line(Line::new().with(Role::Bad, format!("It was not so: {state}")).indent(2)),
        // What is confirmed comes before what is read; with something read, it is asked a second time.
        None if verification.as_ref().is_some_and(|verification| !verification.read.is_empty()) => {
            text.line(Line::plain("It was confirmed before; since then something was read again.").indent(2))
        }
        None => text,
    }
}

/// What the hold point guards, once; and why it is verified again, on every screen.
fn hold_line(view: View<'_>, prompt: &Prompt, name: &Name, is_again: bool) -> Text {
    let what = view.book.procedure.called(name);
    let step = prompt.step.and_then(|step| view.book.procedure.step(step));
    let is_named = step.is_some_and(|step| words::text(view, &step.text).contains(what));
    let lapse = prompt.step.and_then(|step| view.lapse_of(name, step));
    let handed_on = if lapse.is_none() && !is_again { handed_on(view, name) } else { Text::new() };
    handed_on.then(match lapse {
        None if is_again || is_named => Text::new(),
        None => Line::new().with(Role::Strong, format!("Hold point: {what}.")).hang(2).into(),
        Some(why) => Line::new()
            .with(Role::Strong, format!("Hold point: {what}."))
            .with(Role::Plain, format!(" Verify it again: {why}."))
            .hang(2)
            .into(),
    })
}

/// In a job: that the protection is in force, and who looked at it last; or that it is not.
fn handed_on(view: View<'_>, name: &Name) -> Text {
    let is_in_job = view.state.start.as_ref().is_some_and(|(start, _)| start.job.is_some());
    let hold = view.book.procedure.hold(name);
    let Some((hold, from)) = hold.and_then(|hold| Some((hold, hold.handed_on.as_ref()?))) else {
        return Text::new();
    };
    match view.handed_on_to(hold) {
        Some(protection) => {
            let words = format!("Handed on: {}. Look again.", words::inherited(view.now)(protection));
            Line::new().with(Role::Protection, words).hang(2).into()
        }
        None if is_in_job => {
            let words =
                format!("NOT IN FORCE in this job. {} puts it in force: do that first.", from.procedure);
            Line::new().with(Role::Bad, words).hang(2).into()
        }
        None => Text::new(),
    }
}

fn pick(view: View<'_>, steps: &[crate::procedure::StepId]) -> Text {
    let steps = steps.iter().filter_map(|step| view.book.procedure.step(*step));
    let head = Text::plain("These can be done in any order:");
    steps.fold(head, |text, step| {
        text.line(Line::marked(step.number.clone(), words::title(view, step)).indent(2))
    })
}

fn dispose(view: View<'_>, deviation: usize) -> Text {
    let Some(found) = view.state.deviations.get(deviation) else {
        return Text::new();
    };
    let words = format!(
        "Deviation {}: {}. Reason: {}",
        deviation + 1,
        view.departure(&found.departure),
        found.reason
    );
    Text::plain(&words)
}
