//! A procedure shown as a whole: what it needs, what is dangerous, every step.

use crate::procedure::{
    CheckedProcedure, Group, Hold, Name, Named, Order, Passage, PassageKind, Passes, Piece, Repeat, Section,
    Step, Supply,
};
use crate::terminal::{Line, Role, Text};

/// The whole procedure.
pub fn overview(procedure: &CheckedProcedure) -> Text {
    let text = opening(procedure).blank().then(requirements(procedure));
    procedure
        .sections()
        .iter()
        .fold(text, |text, section| text.blank().then(section_text(procedure, section)))
}

/// What is read before the first question of a run: which procedure this is, and what its author says first.
pub fn opening(procedure: &CheckedProcedure) -> Text {
    head(procedure).then(passages(procedure, procedure.introduction()))
}

fn head(procedure: &CheckedProcedure) -> Text {
    let header = procedure.header();
    let time = header.time.as_ref().map(|time| format!(", about {time}")).unwrap_or_default();
    Text::new()
        .line(Line::new().with(Role::Strong, procedure.title()))
        .line(Line::plain(format!(
            "Revision {} of {}, by {}{time}",
            header.revision, header.date, header.author
        )))
        .line(Line::plain(format!("For: {}", header.scope)).hang(2))
}

fn requirements(procedure: &CheckedProcedure) -> Text {
    let tool = |(_, tool): (&Name, &crate::procedure::Tool)| {
        let accuracy =
            tool.accuracy.as_ref().map(|accuracy| format!(", good to ±{accuracy}")).unwrap_or_default();
        let range = tool.range.as_ref().map(|(low, high)| format!(", reads {low} to {high}"));
        let calibrated = if tool.calibrated { ", calibrated" } else { "" };
        format!("{}{accuracy}{}{calibrated}", tool.what, range.unwrap_or_default())
    };
    let vehicle =
        procedure.vehicle().iter().map(|(_, value)| format!("{} (find it in: {})", value.what, value.find));
    let linked = procedure.linked().iter();
    let linked = linked
        .map(|linked| format!("{}, revision {} ({})", linked.title, linked.header.revision, linked.address));
    let within =
        if procedure.linked().is_empty() { Text::new() } else { list("Procedures run within it", linked) };
    within
        .then(list("Persons", procedure.roles().iter().map(|(name, role)| format!("{name}: {}", role.what))))
        .then(list("Tools", procedure.tools().iter().map(tool)))
        .then(list("Materials", supplies(procedure.materials())))
        .then(list("Parts", supplies(procedure.parts())))
        .then(list("To be known of the vehicle", vehicle))
        .then(list("Must be so before the job", procedure.header().required.iter().cloned()))
        .then(list("Must be so at the end", procedure.header().close_up.iter().cloned()))
        .then(rules_off(procedure))
}

/// The author's rules that the file turns off, with the reasons; nothing where all of them hold.
fn rules_off(procedure: &CheckedProcedure) -> Text {
    let rules = procedure.rules_off();
    if rules.is_empty() {
        return Text::new();
    }
    list("Author's rules turned off", rules.iter().map(|rule| format!("{}: {}", rule.code, rule.reason)))
}

fn supplies(supplies: &Named<Supply>) -> impl Iterator<Item = String> {
    supplies.iter().map(|(_, supply)| {
        let amount = supply.amount.as_ref().map(|amount| format!(", {}", amount.text())).unwrap_or_default();
        format!("{}{amount}", supply.what)
    })
}

/// What belongs under a title, item by item; or that there is none.
pub(super) fn list(title: &str, items: impl Iterator<Item = String>) -> Text {
    let items: Vec<String> = items.collect();
    let head = Line::new().with(Role::Strong, format!("{title}:"));
    if items.is_empty() {
        return head.with(Role::Plain, " none").into();
    }
    items.into_iter().fold(Text::new().line(head), |text, item| text.line(Line::marked("-", item).indent(2)))
}

fn section_text(procedure: &CheckedProcedure, section: &Section) -> Text {
    let only = only_if(procedure, &section.conditions);
    let title = Line::new().with(Role::Strong, &section.title).with(Role::Plain, only);
    let repeated = section.repeat.as_ref().and_then(|name| repeated(procedure, name));
    let text = repeated.into_iter().fold(Text::new().line(title), Text::line);
    let text = text.then(hazards(procedure, &section.hazards));
    let text = section.groups.iter().fold(text, |text, group| text.then(group_text(procedure, group, 0)));
    text.then(passages(procedure, &section.after))
}

fn group_text(procedure: &CheckedProcedure, group: &Group, depth: usize) -> Text {
    let free = Line::new().with(Role::Faint, "In any order:").indent(depth);
    let text = if group.order == Order::AnyOrder { Text::from(free) } else { Text::new() };
    let steps = group.steps.iter().filter_map(|step| procedure.step(*step));
    steps.fold(text, |text, step| text.then(step_text(procedure, step, depth)))
}

fn step_text(procedure: &CheckedProcedure, step: &Step, depth: usize) -> Text {
    let only = only_if(procedure, &step.conditions);
    let who: Vec<&str> = step.who.iter().map(Name::as_str).collect();
    let who = if who.is_empty() { String::new() } else { format!("[{}] ", who.join(" and ")) };
    let words = format!("{who}{}{only}", text_of(procedure, &step.text));
    let text = passages(procedure, &step.before).then(hazards(procedure, &step.hazards));
    let text = text.line(Line::marked(step.number.clone(), words).indent(depth));
    let repeated = step.repeat.as_ref().and_then(|name| repeated(procedure, name));
    let text = text.then(repeated.into_iter().fold(Text::new(), Text::line).indented(depth + 4));
    let text = match step.hold.as_ref().and_then(|hold| procedure.hold(hold)) {
        Some(hold) => text.then(hold_text(procedure, hold).indented(depth + 4)),
        None => text,
    };
    let text = text.then(looks(procedure, step).indented(depth + 4));
    let text = text.then(stopping_point(procedure, step).indented(depth + 4));
    let text = text.then(super::fastening::overview(procedure, step).indented(depth + 4));
    let text = text.then(passages(procedure, &step.passages).indented(depth + 4));
    step.groups.iter().fold(text, |text, group| text.then(group_text(procedure, group, depth + 2)))
}

/// How often something is done.
fn repeated(procedure: &CheckedProcedure, name: &Name) -> Option<Line> {
    let repeat = procedure.repeat(name)?;
    let most = repeat.at_most.as_ref().map(|most| format!(", at most {} passes", most.text()));
    let words = format!("Repeated: {}{}", passes(procedure, repeat), most.unwrap_or_default());
    Some(Line::plain(words).hang(2))
}

fn passes(procedure: &CheckedProcedure, repeat: &Repeat) -> String {
    match &repeat.passes {
        Passes::Each(items) => format!("for each of these: {}", items.join(", ")),
        Passes::EachOf(list) => format!("for each of these: {}", mention(procedure, list)),
        Passes::Times(times) => format!("{} times", times.text()),
        Passes::Until(until) => format!("until {}", until.text()),
    }
}

/// Where the job can rest, and how things are then.
fn stopping_point(procedure: &CheckedProcedure, step: &Step) -> Text {
    let point = step.stopping_point.as_ref().and_then(|name| procedure.stopping_point(name));
    let line = |what: &str| Line::plain(format!("Stopping point: {what}")).hang(2);
    point.map(|point| line(&point.what)).into_iter().fold(Text::new(), Text::line)
}

/// Who else looks at a step: called before it, or checking it afterwards.
fn looks(procedure: &CheckedProcedure, step: &Step) -> Text {
    let witness = |name: &Name| {
        let witness = procedure.witness(name)?;
        Some(format!("Witness point, the {} is called: {}", witness.by, witness.what))
    };
    let check = |name: &Name| {
        let check = procedure.check(name)?;
        Some(format!("Then verified by the {}: {}", check.by, check.what))
    };
    let witnesses = step.witnesses.iter().filter_map(witness);
    witnesses
        .chain(step.checks.iter().filter_map(check))
        .fold(Text::new(), |text, words| text.line(Line::plain(words).hang(2)))
}

fn hold_text(procedure: &CheckedProcedure, hold: &Hold) -> Text {
    let second = hold.second.as_ref().map(|role| format!(" and the {role}")).unwrap_or_default();
    let head = Line::new()
        .with(Role::Strong, "Hold point: ")
        .with(Role::Plain, format!("{}; released by the {}{second}", hold.what, hold.release))
        .hang(2);
    let readings =
        hold.readings.iter().map(|name| format!("[{}]", procedure.what(name).unwrap_or(name.as_str())));
    let items = hold.confirm.iter().cloned().chain(readings);
    items.fold(Text::from(head), |text, item| text.line(Line::marked("-", item)))
}

fn hazards(procedure: &CheckedProcedure, names: &[Name]) -> Text {
    let hazards = names.iter().filter_map(|name| procedure.hazard(name));
    hazards.fold(Text::new(), |text, hazard| text.line(super::screen::hazard_line(hazard)))
}

/// The conditions that a step or a section depends on: ` (only if look == "milky")`.
fn only_if(procedure: &CheckedProcedure, names: &[Name]) -> String {
    let conditions = names.iter().filter_map(|name| procedure.condition(name));
    let formulas: Vec<&str> = conditions.map(crate::procedure::Condition::words).collect();
    if formulas.is_empty() { String::new() } else { format!(" (only if {})", formulas.join(" and ")) }
}

fn passages(procedure: &CheckedProcedure, passages: &[Passage]) -> Text {
    passages.iter().fold(Text::new(), |text, passage| {
        let words = text_of(procedure, &passage.text);
        let mark = match passage.kind {
            PassageKind::Note => "Note: ",
            PassageKind::Image => "Picture: ",
            PassageKind::Prose | PassageKind::Verbatim | PassageKind::Heading => "",
        };
        text.then(Text::plain(&format!("{mark}{words}")))
    })
}

fn text_of(procedure: &CheckedProcedure, pieces: &[Piece]) -> String {
    let words = pieces.iter().map(|piece| match piece {
        Piece::Text(text) => text.clone(),
        Piece::Mention(name) => mention(procedure, &name.value),
    });
    words.collect()
}

/// What a name stands for; a reading or a value in brackets, like a blank.
fn mention(procedure: &CheckedProcedure, name: &Name) -> String {
    let what = procedure.what(name).unwrap_or(name.as_str());
    let is_result = procedure.reading(name).is_some() || procedure.value(name).is_some();
    if is_result { format!("[{what}]") } else { what.to_owned() }
}
