//! A procedure shown as a whole: what it needs, what is dangerous, every step.

use super::around;
use super::criteria::criteria;
use super::kit;
use super::lists::{head, list};
use super::paper::Paper;
use super::words;
use crate::procedure::{
    CheckedProcedure, Group, Hold, Name, Named, Order, Passage, Piece, Section, Step, Supply,
};
use crate::terminal::{Line, Role, Text};
use crate::vehicle::Sheet;

/// The whole procedure; with the figures of one vehicle where its sheet is given.
pub fn overview(procedure: &CheckedProcedure, sheet: Option<&Sheet>) -> Text {
    let paper = Paper::new(procedure, sheet);
    let text = opening(procedure).blank().then(requirements(paper));
    let sections = procedure.sections().iter();
    let text = sections.fold(text, |text, section| text.blank().then(section_text(paper, section)));
    text.blank().then(list("Must be so at the end", procedure.close_up().iter().cloned()))
}

/// What is read before the first question of a run: which procedure this is, and what its author says first.
pub fn opening(procedure: &CheckedProcedure) -> Text {
    head(procedure).then(passages(procedure, procedure.introduction()))
}

fn requirements(paper: Paper<'_>) -> Text {
    let lists = needs(paper).into_iter();
    let text = lists.fold(Text::new(), |text, (title, items)| text.then(list(title, items.into_iter())));
    let text = text.then(list("To be known of the vehicle", of_the_vehicle(paper).into_iter()));
    let required = paper.procedure.required().iter().cloned();
    text.then(list("Must be so before the job", required)).then(rules_off(paper.procedure))
}

/// What the job takes, list by list: people and things.
pub(super) fn needs(paper: Paper<'_>) -> Vec<(&'static str, Vec<String>)> {
    let procedure = paper.procedure;
    let linked = procedure.linked().iter();
    let linked: Vec<String> = linked
        .map(|linked| format!("{}, revision {} ({})", linked.title, linked.header.revision, linked.address))
        .collect();
    let within = (!linked.is_empty()).then_some(("Procedures run within it", linked));
    let persons = procedure.roles().iter().map(|(name, role)| format!("{name}: {}", role.what));
    let lists = [
        ("Persons", persons.collect()),
        ("Tools", procedure.tools().iter().map(|(_, tool)| kit::tool(tool)).collect()),
        ("Materials", supplies(paper, procedure.materials()).collect()),
        ("Parts", supplies(paper, procedure.parts()).collect()),
    ];
    within.into_iter().chain(lists).collect()
}

fn of_the_vehicle(paper: Paper<'_>) -> Vec<String> {
    let vehicle = paper.procedure.vehicle().iter().map(|(name, value)| {
        let choices = if value.choices.is_empty() {
            String::new()
        } else {
            format!(", one of: {}", value.choices.join(", "))
        };
        match paper.said(name) {
            Some(said) => format!("{}: {said}", value.what),
            None => format!("{}{choices} (find it in: {})", value.what, value.find),
        }
    });
    vehicle.collect()
}

/// The author's rules that the file turns off, with the reasons; nothing where all of them hold.
fn rules_off(procedure: &CheckedProcedure) -> Text {
    let rules = procedure.rules_off();
    if rules.is_empty() {
        return Text::new();
    }
    list("Author's rules turned off", rules.iter().map(|rule| format!("{}: {}", rule.code, rule.reason)))
}

fn supplies<'a>(paper: Paper<'a>, supplies: &'a Named<Supply>) -> impl Iterator<Item = String> + 'a {
    supplies.iter().map(move |(_, supply)| {
        let amount =
            supply.amount.as_ref().map(|amount| format!(", {}", paper.formula(amount))).unwrap_or_default();
        format!("{}{amount}", supply.what)
    })
}

fn section_text(paper: Paper<'_>, section: &Section) -> Text {
    let text = section_head(paper, section);
    let text = section.groups.iter().fold(text, |text, group| text.then(group_text(paper, group, 0)));
    text.then(passages(paper.procedure, &section.after))
}

/// The title of a section with its hazards.
pub(super) fn section_head(paper: Paper<'_>, section: &Section) -> Text {
    let only = around::only_if(paper, &section.conditions);
    let repeated = around::repeated(paper, section.repeat.as_ref());
    let title = Line::new().with(Role::Strong, &section.title).with(Role::Plain, format!("{repeated}{only}"));
    Text::new().line(title).then(hazards(paper.procedure, &section.hazards))
}

fn group_text(paper: Paper<'_>, group: &Group, depth: usize) -> Text {
    let free = Line::new().with(Role::Faint, "In any order:").indent(depth);
    let is_free = group.order == Order::AnyOrder && group.steps.len() > 1;
    let text = if is_free { Text::from(free) } else { Text::new() };
    let steps = group.steps.iter().filter_map(|step| paper.procedure.step(*step));
    steps.fold(text, |text, step| text.then(step_text(paper, step, depth)))
}

fn step_text(paper: Paper<'_>, step: &Step, depth: usize) -> Text {
    let text = step_alone(paper, step, &step.who, depth);
    step.groups.iter().fold(text, |text, group| text.then(group_text(paper, group, depth + 2)))
}

/// A step without its parts, with the roles that are named in front of it.
pub(super) fn step_alone(paper: Paper<'_>, step: &Step, who: &[Name], depth: usize) -> Text {
    let procedure = paper.procedure;
    let only = around::only_if(paper, &step.conditions);
    let who: Vec<&str> = who.iter().map(Name::as_str).collect();
    let who = if who.is_empty() { String::new() } else { format!("[{}] ", who.join(" and ")) };
    let repeated = around::repeated(paper, step.repeat.as_ref());
    let words = format!("{who}{}{repeated}{only}", text_of(procedure, &step.text));
    let text = passages(procedure, &step.before).then(hazards(procedure, &step.hazards));
    let text = text.then(words::numbered(&step.number, Role::Plain, words).indented(depth));
    let text = match step.hold.as_ref().and_then(|hold| procedure.hold(hold)) {
        Some(hold) => text.then(hold_text(procedure, hold).indented(depth + 4)),
        None => text,
    };
    let text = text.then(criteria(paper, step).indented(depth + 4));
    let text = text.then(around::beside(paper, step).indented(depth + 4));
    let text = text.then(super::fastening::overview(paper, step).indented(depth + 4));
    text.then(passages(procedure, &step.passages).indented(depth + 4))
}

pub(super) fn hold_text(procedure: &CheckedProcedure, hold: &Hold) -> Text {
    let second = hold.second.as_ref().map(|role| format!(" and the {role}")).unwrap_or_default();
    let head = Line::new()
        .with(Role::Strong, "Hold point: ")
        .with(Role::Plain, format!("{}; released by the {}{second}", hold.what, hold.release))
        .hang(2);
    let readings =
        hold.readings.iter().chain(&hold.fasteners).map(|name| format!("[{}]", procedure.called(name)));
    let statements = hold.confirm.iter().enumerate().map(|(item, statement)| {
        let anew = if hold.anew.contains(&item) { " (asked anew after a retake)" } else { "" };
        format!("{statement}{anew}")
    });
    let items = statements.chain(readings);
    items.fold(Text::from(head), |text, item| text.line(Line::marked("-", item)))
}

pub(super) fn hazards(procedure: &CheckedProcedure, names: &[Name]) -> Text {
    let hazards = names.iter().filter_map(|name| procedure.hazard(name));
    hazards.fold(Text::new(), |text, hazard| text.line(super::hazard::hazard_line(hazard)))
}

fn passages(procedure: &CheckedProcedure, passages: &[Passage]) -> Text {
    let shown = |passage: &Passage| words::shown_as(passage, text_of(procedure, &passage.text));
    passages.iter().map(shown).fold(Text::new(), Text::then)
}

pub(super) fn text_of(procedure: &CheckedProcedure, pieces: &[Piece]) -> String {
    let words = pieces.iter().map(|piece| match piece {
        Piece::Text(text) => text.clone(),
        Piece::Mention(name) => mention(procedure, &name.value),
    });
    words.collect()
}

/// What a name stands for; a reading, a value or what is repeated in brackets, like a blank.
fn mention(procedure: &CheckedProcedure, name: &Name) -> String {
    let what = procedure.called(name);
    let is_result = procedure.reading(name).is_some() || procedure.value(name).is_some();
    let is_result = is_result || procedure.repeat(name).is_some();
    if is_result { format!("[{what}]") } else { what.to_owned() }
}
