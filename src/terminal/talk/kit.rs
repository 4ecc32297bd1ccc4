//! What is laid out before a job, on one page; a rehearsal ends in the same lists.

use super::lists::{head, list};
use super::words;
use crate::procedure::{LevelOfUse, Name, Step, Supply, Tool};
use crate::run::{LaidOut, Packed, PlannedWait, Together, View};
use crate::terminal::{Line, Role, Text};

/// What to lay out for a job that has not begun: persons, tools, materials, parts, moments for two, waits, and what must
/// be so before.
pub fn kit(view: View<'_>) -> Text {
    let procedure = &view.book.procedure;
    let persons = procedure.roles().iter().map(|(name, role)| format!("{name}: {}", role.what));
    let linked = procedure.linked().iter().flat_map(|linked| {
        linked.header.required.iter().map(move |words| format!("{words} (for: {})", linked.title))
    });
    let required = procedure.required().iter().cloned().chain(linked);
    head(procedure)
        .line(levels(view))
        .blank()
        .then(list("Persons", persons))
        .then(lists(view))
        .then(list("Must be so before the job", required))
        .then(missing(view))
}

/// The tools, materials and parts with the step that needs each first, the moments for two, the waits.
pub(super) fn lists(view: View<'_>) -> Text {
    let procedure = &view.book.procedure;
    let supply = |laid_out: LaidOut<'_, Supply>| {
        let amount = view.packed(laid_out.thing).map(|packed| format!(", {}", amount(view, &packed)));
        format!("{}{}{}", laid_out.thing.what, amount.unwrap_or_default(), when(&laid_out))
    };
    let tools =
        view.tools().into_iter().map(|laid_out| format!("{}{}", tool(laid_out.thing), when(&laid_out)));
    list("Tools to lay out", tools)
        .then(list("Materials to pack", view.supplies(procedure.materials()).into_iter().map(supply)))
        .then(list("Parts to pack", view.supplies(procedure.parts()).into_iter().map(supply)))
        .then(list("Moments for two", view.together().into_iter().map(|moment| together(view, &moment))))
        .then(list("Waits", view.planned_waits().into_iter().map(|planned| wait(view, &planned))))
}

/// A tool with what makes it an instrument.
pub(super) fn tool(tool: &Tool) -> String {
    let accuracy = tool
        .accuracy
        .as_ref()
        .map(|accuracy| format!(", good to {}", accuracy.plus_minus()))
        .unwrap_or_default();
    let range = tool.range.as_ref().map(|(low, high)| format!(", reads {low} to {high}"));
    let calibrated = if tool.calibrated { ", calibrated" } else { "" };
    format!("{}{accuracy}{}{calibrated}", tool.what, range.unwrap_or_default())
}

/// Which level of use holds, and in which sections another one does.
fn levels(view: View<'_>) -> Line {
    let procedure = &view.book.procedure;
    let said = |level: LevelOfUse| format!("{} ({})", level.word(), level.meaning());
    let usual = procedure.header().level_of_use;
    let others = procedure.sections().iter().filter(|section| section.level != usual);
    let others = others.map(|section| format!("; \"{}\": {}", section.title, said(section.level)));
    Line::plain(format!("Level of use: {}{}", said(usual), others.collect::<String>())).hang(2)
}

fn amount(view: View<'_>, packed: &Packed<'_>) -> String {
    let worded = || view.book.procedure.worded(packed.formula);
    packed.comes_to.as_ref().map_or_else(worded, ToString::to_string)
}

/// ` (first at 3.4, helper)`.
fn when<T>(laid_out: &LaidOut<'_, T>) -> String {
    let Some(first) = laid_out.first else { return String::new() };
    let by: Vec<&str> = laid_out.by.iter().map(Name::as_str).collect();
    format!(" (first at {}, {})", first.number, by.join(" and "))
}

fn together(view: View<'_>, moment: &Together<'_>) -> String {
    let roles: Vec<&str> = moment.roles.iter().map(|role| role.as_str()).collect();
    let pass = moment.pass.as_ref().map(|pass| format!(", {pass}")).unwrap_or_default();
    format!("{}{pass}: {} ({})", step(view, moment.step), roles.join(" and "), moment.why)
}

fn wait(view: View<'_>, wait: &PlannedWait<'_>) -> String {
    let least = wait.at_least.map(|least| format!("at least {least}"));
    let most = wait.at_most.map(|most| format!("at most {most}"));
    let from = wait.from.map(|from| format!("from step {}", from.number));
    let until = wait
        .until
        .map_or_else(|| ", and no later step needs it".to_owned(), |until| format!(" to {}", until.number));
    let words: Vec<String> = least.into_iter().chain(most).chain(from).collect();
    let often = match view.times_started(wait.name) {
        0 | 1 => String::new(),
        times => format!(", {times} times"),
    };
    format!("{}: {}{until}{often}", wait.what, words.join(", "))
}

fn step(view: View<'_>, step: &Step) -> String {
    let title = words::title(view, step);
    let title = title.strip_suffix('.').filter(|title| !title.ends_with('.')).unwrap_or(&title);
    format!("{} {title}", step.number)
}

/// What says how amounts are worked out that are not; nothing where all are.
fn missing(view: View<'_>) -> Text {
    let procedure = &view.book.procedure;
    let mut supplies = procedure.materials().iter().chain(procedure.parts().iter());
    let is_missing = |supply: &Supply| view.packed(supply).is_some_and(|packed| packed.comes_to.is_none());
    if !supplies.any(|(_, supply)| is_missing(supply)) {
        return Text::new();
    }
    let words = "What stands in [ ] is a value of the vehicle: `--vehicle SHEET` gives its figure.";
    Text::new().blank().line(Line::new().with(Role::Faint, words))
}
