//! The screen of a question: where we are, what protects, the step, what comes next.

use super::{in_force, words};
use crate::procedure::{Hazard, Name, Signal, Step};
use crate::run::{Ask, Prompt, View};
use crate::terminal::{Line, Role, Text};

/// What is shown above a question.
pub(super) fn screen(view: View<'_>, prompt: &Prompt) -> Text {
    let step = shown_step(view, prompt);
    let body = match step {
        Some(step) => step_text(view, prompt, step),
        None => Text::new(),
    };
    head(view, step)
        .then(body)
        .then(asked(view, prompt))
        .then(next(view, step))
}

fn shown_step<'run>(view: View<'run>, prompt: &Prompt) -> Option<&'run Step> {
    let id = match &prompt.ask {
        Ask::Pick(steps) => *steps.first()?,
        _ => prompt.step?,
    };
    view.book.procedure.step(id)
}

fn head(view: View<'_>, step: Option<&Step>) -> Text {
    let procedure = &view.book.procedure;
    let title = Line::new()
        .with(Role::Strong, procedure.title())
        .with(Role::Faint, format!(", revision {}", procedure.header().revision));
    let place = step.map(|step| place(view, step));
    let text = Text::new().line(title);
    place
        .into_iter()
        .fold(text, Text::line)
        .line(in_force(view))
        .blank()
}

fn place(view: View<'_>, step: &Step) -> Line {
    let section = view
        .book
        .procedure
        .section(step.section)
        .map(|section| section.title.as_str());
    let section = section
        .filter(|title| !title.is_empty())
        .map(|title| format!("Section: {title}"));
    let progress = words::progress(view, step.id);
    let words = section.map_or_else(|| progress.clone(), |section| format!("{section}, {progress}"));
    Line::plain(words).hang(2)
}

fn step_text(view: View<'_>, prompt: &Prompt, step: &Step) -> Text {
    let parent = step.parent.and_then(|parent| view.book.procedure.step(parent));
    let mut text = Text::new();
    if let Some(parent) = parent {
        text = text.line(numbered(view, parent, Role::Faint)).blank();
    }
    if !matches!(prompt.ask, Ask::Pick(_)) {
        for passage in &step.before {
            text = text.line(words::passage(view, passage)).blank();
        }
        text = hazards(view, step, text);
        text = text.line(numbered(view, step, Role::Strong));
        if let Some(who) = words::performers(view, step) {
            text = text.line(Line::plain(format!("By: {who}")).indent(2));
        }
    }
    step.passages
        .iter()
        .fold(text, |text, passage| {
            text.line(words::passage(view, passage).indent(2))
        })
        .blank()
}

fn numbered(view: View<'_>, step: &Step, role: Role) -> Line {
    let number = format!("{} ", step.number);
    let hang = number.len();
    Line::new()
        .with(Role::Faint, number)
        .with(role, words::text(view, &step.text))
        .hang(hang)
}

/// Every hazard of a step stands before it; DANGER and WARNING are asked about as well.
fn hazards(view: View<'_>, step: &Step, text: Text) -> Text {
    let section = view.book.procedure.section(step.section);
    let of_section = section.into_iter().flat_map(|section| &section.hazards);
    let names = of_section.chain(&step.hazards);
    let hazards = names.filter_map(|name| view.book.procedure.hazard(name));
    hazards.fold(text, |text, hazard| text.line(hazard_line(hazard)).blank())
}

pub(super) fn hazard_line(hazard: &Hazard) -> Line {
    let role = match hazard.signal {
        Signal::Danger => Role::Danger,
        Signal::Warning => Role::Warning,
        Signal::Caution => Role::Caution,
        Signal::Notice => Role::Notice,
    };
    let words = format!(
        " {} {} {}",
        sentence(&hazard.hazard),
        sentence(&hazard.consequence),
        sentence(&hazard.avoid)
    );
    Line::new()
        .with(role, hazard.signal.word())
        .with(Role::Plain, words)
        .hang(2)
}

/// A sentence ends with a full stop.
fn sentence(words: &str) -> String {
    let words = words.trim();
    if words.ends_with(['.', '!', '?']) {
        words.to_owned()
    } else {
        format!("{words}.")
    }
}

fn asked(view: View<'_>, prompt: &Prompt) -> Text {
    match &prompt.ask {
        Ask::Reading(name) => reading(view, name),
        Ask::Failed(name) => failed(view, name),
        Ask::Confirm { hold, item } => confirm(view, hold, *item),
        Ask::Release { hold, .. } => hold_line(view, hold, "Everything is confirmed."),
        Ask::Pick(steps) => pick(view, steps),
        Ask::Dispose(deviation) => dispose(view, *deviation),
        _ => Text::new(),
    }
}

fn reading(view: View<'_>, name: &Name) -> Text {
    let Some(reading) = view.book.procedure.reading(name) else {
        return Text::new();
    };
    let ask = Line::new()
        .with(Role::Strong, "Read: ")
        .with(
            Role::Plain,
            format!("{}, {}", reading.what, words::form(&reading.kind)),
        )
        .hang(2);
    let wanted = words::wanted(view, name).unwrap_or_else(|| "information only".to_owned());
    let source = reading
        .source
        .as_ref()
        .map(|source| format!(" ({source})"))
        .unwrap_or_default();
    let text = Text::new()
        .line(ask)
        .line(Line::plain(format!("Wanted: {wanted}{source}")).hang(2));
    let text = instrument(view, reading.instrument.as_ref(), text);
    earlier(view, name, text)
}

fn instrument(view: View<'_>, instrument: Option<&Name>, text: Text) -> Text {
    let Some(tool) = instrument.and_then(|name| view.book.procedure.tool(name)) else {
        return text;
    };
    let accuracy = tool
        .accuracy
        .as_ref()
        .map(|accuracy| format!(", good to ±{accuracy}"))
        .unwrap_or_default();
    text.line(Line::plain(format!("With: {}{accuracy}", tool.what)).hang(2))
}

fn earlier(view: View<'_>, name: &Name, text: Text) -> Text {
    let attempts = view
        .state
        .readings
        .get(name)
        .map(Vec::as_slice)
        .unwrap_or_default();
    if attempts.is_empty() {
        return text;
    }
    let values: Vec<String> = attempts
        .iter()
        .map(|taken| words::answered(&taken.value))
        .collect();
    text.line(Line::plain(format!("Earlier: {}", values.join("; "))).hang(2))
}

fn failed(view: View<'_>, name: &Name) -> Text {
    let procedure = &view.book.procedure;
    let reading = procedure.reading(name).and_then(|reading| reading.fails.as_ref());
    let fix = reading.or_else(|| procedure.value(name).and_then(|value| value.fails.as_ref()));
    let text = super::result::result(view, name);
    fix.map(|fix| {
        Line::new()
            .with(Role::Strong, "What to do: ")
            .with(Role::Plain, fix.as_str())
            .hang(2)
    })
    .into_iter()
    .fold(text, Text::line)
}

fn confirm(view: View<'_>, name: &Name, item: usize) -> Text {
    let Some(hold) = view.book.procedure.hold(name) else {
        return Text::new();
    };
    let count = format!("Is this so? ({} of {})", item + 1, hold.confirm.len());
    let statement = hold.confirm.get(item).map(String::as_str).unwrap_or_default();
    let text = hold_line(view, name, &count);
    let text = text.line(Line::new().with(Role::Strong, statement).indent(2));
    let verification = view.state.holds.get(name);
    match verification.and_then(|verification| verification.contradicted.get(&item)) {
        Some(state) => text.line(
            Line::new()
                .with(Role::Bad, format!("It was not so: {state}"))
                .indent(2),
        ),
        None => text,
    }
}

fn hold_line(view: View<'_>, name: &Name, words: &str) -> Text {
    let Some(hold) = view.book.procedure.hold(name) else {
        return Text::new();
    };
    let lapse = view
        .lapse(name)
        .map(|why| format!(" Verify it again: {why}."))
        .unwrap_or_default();
    let head = Line::new()
        .with(Role::Strong, format!("Hold point: {}.", hold.what))
        .with(Role::Plain, lapse)
        .hang(2);
    Text::new().line(head).line(Line::plain(words))
}

fn pick(view: View<'_>, steps: &[crate::procedure::StepId]) -> Text {
    let steps = steps.iter().filter_map(|step| view.book.procedure.step(*step));
    let head = Text::plain("These can be done in any order:");
    steps.enumerate().fold(head, |text, (place, step)| {
        let words = format!("{} {}", step.number, words::text(view, &step.text));
        text.line(Line::marked(format!("({})", place + 1), words).indent(2))
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

fn next(view: View<'_>, step: Option<&Step>) -> Text {
    let later = step.and_then(|step| view.after(step.id));
    let words = match later {
        Some(later) => format!("Next: {} {}", later.number, words::text(view, &later.text)),
        None => return Text::new().blank(),
    };
    Text::new()
        .blank()
        .line(Line::new().with(Role::Faint, words).hang(2))
}
