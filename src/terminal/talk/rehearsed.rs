//! What a rehearsal ends in, as it is read the evening before.

use super::overview::list;
use super::words;
use crate::procedure::{Name, Step};
use crate::run::{Packed, View};
use crate::terminal::{Line, Role, Text};

/// The kit, the moments for two, the waits, the longest stretch.
pub fn rehearsed(view: View<'_>) -> Text {
    let procedure = &view.book.procedure;
    let tools = procedure.tools().iter().map(|(_, tool)| tool.what.clone());
    Text::new()
        .line(Line::new().with(Role::Strong, "Rehearsed. Nothing was recorded."))
        .then(list("Tools to lay out", tools))
        .then(list("Materials to pack", view.packed(procedure.materials()).into_iter().map(packed)))
        .then(list("Parts to pack", view.packed(procedure.parts()).into_iter().map(packed)))
        .then(list("Moments for two", together(view)))
        .then(list("Waits", waits(view)))
        .then(stretch(view))
}

fn packed(packed: Packed<'_>) -> String {
    let amount = packed.amount.map(|amount| format!(", {amount}")).unwrap_or_default();
    format!("{}{amount}", packed.what)
}

fn together(view: View<'_>) -> impl Iterator<Item = String> {
    view.together().into_iter().map(move |moment| {
        let roles: Vec<&str> = moment.roles.into_iter().map(Name::as_str).collect();
        let pass = moment.pass.as_ref().map(|pass| format!(", {pass}")).unwrap_or_default();
        format!("{}{pass}: {} ({})", step(view, moment.step), roles.join(" and "), moment.why)
    })
}

fn waits(view: View<'_>) -> impl Iterator<Item = String> {
    let procedure = &view.book.procedure;
    procedure.waits().iter().map(move |(name, wait)| {
        let least = wait.at_least.as_ref().map(|least| format!("at least {least}"));
        let most = wait.at_most.as_ref().map(|most| format!("at most {most}"));
        let times: Vec<String> = least.into_iter().chain(most).collect();
        let mut steps = procedure.steps().iter();
        let from = steps.clone().find(|step| step.starts.contains(name));
        let until = steps.find(|step| step.needs.contains(name));
        let from = from.map(|from| format!("from step {}", from.number));
        let until = until.map_or_else(
            || ", and no later step needs it".to_owned(),
            |until| format!(" to {}", until.number),
        );
        let words: Vec<String> = times.into_iter().chain(from).collect();
        let often = match view.times_started(name) {
            0 | 1 => String::new(),
            times => format!(", {times} times"),
        };
        format!("{}: {}{until}{often}", wait.what, words.join(", "))
    })
}

fn stretch(view: View<'_>) -> Text {
    let Some(longest) = view.longest_stretch() else {
        return Text::new();
    };
    let rests =
        longest.rests.map_or_else(|| "the job is over".to_owned(), |rests| format!("it can rest: {rests}"));
    let words = format!("{} steps, from {} to {}; then {rests}.", longest.steps, longest.from, longest.to);
    Text::new().line(
        Line::new()
            .with(Role::Strong, "Longest stretch without a stopping point: ")
            .with(Role::Plain, words)
            .hang(2),
    )
}

fn step(view: View<'_>, step: &Step) -> String {
    format!("{} {}", step.number, words::title(view, step))
}
