//! Looking: why something is asked, all the steps, one of them in full. Nothing is changed by it.

use super::words;
use crate::procedure::{Name, Step};
use crate::run::{Ask, Prompt, View};
use crate::terminal::{Line, Role, Text};

/// Why this is asked.
pub(super) fn why(view: View<'_>, prompt: &Prompt) -> Text {
    let lines = reasons(view, prompt);
    let text = lines.into_iter().fold(Text::new(), Text::line);
    if text == Text::new() {
        return Text::plain(plainly(&prompt.ask));
    }
    text
}

fn reasons(view: View<'_>, prompt: &Prompt) -> Vec<Line> {
    let procedure = &view.book.procedure;
    let mut lines = Vec::new();
    if let Some(name) = asked_name(&prompt.ask) {
        let why = procedure
            .reading(name)
            .and_then(|reading| reading.why.as_ref())
            .or_else(|| procedure.value(name).and_then(|value| value.why.as_ref()))
            .or_else(|| procedure.hold(name).and_then(|hold| hold.why.as_ref()));
        lines.extend(
            why.map(|why| Line::new().with(Role::Strong, "Why: ").with(Role::Plain, why.as_str()).hang(2)),
        );
        let source = procedure.reading(name).and_then(|reading| reading.source.as_ref());
        lines.extend(source.map(|source| Line::plain(format!("The limit is from: {source}")).hang(2)));
    }
    let step = prompt.step.and_then(|step| procedure.step(step));
    lines.extend(step.into_iter().flat_map(|step| conditions(view, step)));
    lines
}

/// The conditions that a step depends on, with what they came to.
fn conditions(view: View<'_>, step: &Step) -> Vec<Line> {
    let section = view.book.procedure.section(step.section);
    let names = step.conditions.iter().chain(section.into_iter().flat_map(|section| &section.conditions));
    let lines = names.map(|name| {
        let why = view.book.procedure.condition(name).and_then(|condition| condition.why.as_deref());
        let why = why.map(|why| format!(" {why}")).unwrap_or_default();
        Line::plain(format!("Only because: {}.{why}", view.condition_shown(name))).hang(2)
    });
    lines.collect()
}

fn asked_name(ask: &Ask) -> Option<&Name> {
    match ask {
        Ask::Reading(name)
        | Ask::Failed(name)
        | Ask::Confirm { hold: name, .. }
        | Ask::Release { hold: name, .. } => Some(name),
        _ => None,
    }
}

fn plainly(ask: &Ask) -> &'static str {
    match ask {
        Ask::Person(_) => "Every entry names a person, and a hold point is released by one.",
        Ask::Odometer => "The record says at which distance the work was done.",
        Ask::VehicleValue(_) => "The vehicle sheet does not give this value, and bayhand never invents one.",
        Ask::Acknowledge(_) => "A hazard that can kill or maim is read before the step, each time anew.",
        Ask::Pick(_) => "The order does not matter; all of them are done.",
        Ask::Wait { .. } => "The time has to pass before the next step. It runs on while bayhand is closed.",
        Ask::Dispose(_) => "No run is closed while it is open what becomes of a departure.",
        Ask::Flow(ask) => super::flow::why(ask),
        Ask::People(ask) => super::people::why(ask),
        Ask::Fastening(ask) => super::fastening::why(ask),
        Ask::Particular(ask) => super::particular::why(ask),
        Ask::Interruption(ask) => super::interruption::why(ask),
        Ask::LooseEnd(_) => {
            "What is left undone is settled, or leaves the job by name: else it is forgotten."
        }
        Ask::Close => "After closing nothing can be added; the record is sealed.",
        _ => "The procedure gives no reason beyond its text.",
    }
}

/// All steps with their states, section by section.
pub(super) fn steps(view: View<'_>, prompt: &Prompt) -> Text {
    let procedure = &view.book.procedure;
    let mut text = Text::new();
    let mut section = None;
    for step in procedure.steps() {
        if section != Some(step.section) {
            section = Some(step.section);
            let title =
                procedure.section(step.section).map(|section| section.title.as_str()).unwrap_or_default();
            text = text.line(Line::new().with(Role::Strong, title));
        }
        text = text.line(step_line(view, step, prompt));
    }
    text
}

/// What there is to a step, in a word or a few.
pub(super) fn mark(view: View<'_>, step: &Step, prompt: &Prompt) -> String {
    let awaits = view.awaits(step).map(|awaits| format!(", {awaits}")).unwrap_or_default();
    format!("{}{awaits}", view.status(step, prompt.step).word())
}

fn step_line(view: View<'_>, step: &Step, prompt: &Prompt) -> Line {
    Line::new()
        .with(Role::Faint, format!("{} ", step.number))
        .with(Role::Strong, format!("{}: ", mark(view, step, prompt)))
        .with(Role::Plain, words::text(view, &step.text))
        .indent(2)
        .hang(4)
}

/// A step as it stands: its text, and what came of it.
pub fn step_in_full(view: View<'_>, step: &Step) -> Text {
    let lines = step.before.iter().map(|passage| words::passage(view, passage));
    let text = lines.fold(Text::new(), Text::then);
    let text = text.then(words::numbered(&step.number, Role::Plain, words::text(view, &step.text)));
    let passages = step.passages.iter().map(|passage| words::passage(view, passage).indented(2));
    let text = passages.fold(text, Text::then);
    let results = view.results_at(view.present_at(step)).into_iter();
    results.fold(text, |text, came| text.then(super::result::told(view, &came)))
}
