//! What a whole job takes: what is bought for all of it, the hours, then each evening in a line, or its whole kit.

use super::kit::{bought, good_for, lists, missing, persons, required};
use super::lists::list;
use crate::kit::{Evening, JobKit, Sum, ToolSum};
use crate::terminal::{Line, Role, Text};

/// The kit of a whole job; `evenings`: with the whole kit of each evening.
pub fn job_kit(kit: &JobKit, evenings: bool) -> Text {
    let head = Text::from(Line::new().with(Role::Strong, kit.title.as_str()));
    let head = head.line(Line::plain(kit.what.as_str()).hang(2)).blank();
    let text = head
        .then(list("Tools in all, with the procedures that use them", kit.tools.iter().map(tool)))
        .then(list("Materials in all", kit.materials.iter().map(sum)))
        .then(list("Parts in all", kit.parts.iter().map(sum)))
        .then(cost(kit))
        .then(list("Time", hours(kit)))
        .then(list("Days away from the bay", kit.procedures.iter().filter_map(away)));
    let sums = kit.materials.iter().chain(&kit.parts);
    let text = text.then(missing(sums.map(|sum| &sum.more).any(|more| !more.is_empty())));
    if evenings {
        return kit.procedures.iter().fold(text, |text, one| text.blank().then(evening(one)));
    }
    text.then(list("Evenings (`--evenings`: the kit of each)", kit.procedures.iter().map(in_short)))
}

/// An evening in a line: its times, and the moments for two.
fn in_short(evening: &Evening) -> String {
    let two = evening.kit.together.len();
    let two = if two == 0 { String::new() } else { format!("; moments for two: {two}") };
    format!("{} {}{}{two}", evening.place, evening.title, times(evening))
}

fn times(evening: &Evening) -> String {
    let alone = evening.alone.as_ref().map(|time| format!(", alone {time}"));
    let two = evening.two.as_ref().map(|time| format!(", for two {time}"));
    alone.into_iter().chain(two).collect()
}

fn tool(tool: &ToolSum) -> String {
    format!("{} ({})", good_for(&tool.what, &tool.remark), places(&tool.procedures))
}

fn places(places: &[usize]) -> String {
    places.iter().map(ToString::to_string).collect::<Vec<_>>().join(", ")
}

fn sum(sum: &Sum) -> String {
    let amount = sum.amount_in_words();
    let amount = if amount.is_empty() { amount } else { format!(", {amount}") };
    format!("{}{amount}{} ({})", sum.what, bought(&sum.buy), places(&sum.procedures))
}

fn cost(kit: &JobKit) -> Text {
    let Some(cost) = &kit.cost else { return Text::new() };
    let without = if kit.without_cost == 0 {
        String::new()
    } else {
        format!("; without a cost: {} of these", kit.without_cost)
    };
    Line::new().with(Role::Strong, "Cost: ").with(Role::Plain, format!("{cost}{without}")).hang(2).into()
}

fn hours(kit: &JobKit) -> impl Iterator<Item = String> {
    let time = &kit.time;
    let not_said = (time.not_said > 0).then(|| format!("not said of: {}", time.not_said));
    [format!("alone: {}", time.alone), format!("for two: {}", time.two)].into_iter().chain(not_said)
}

fn away(evening: &Evening) -> Option<String> {
    Some(format!("before {}: {}", evening.title, evening.away.as_ref()?))
}

fn evening(evening: &Evening) -> Text {
    let title = Line::new().with(Role::Strong, format!("{} {}", evening.place, evening.title));
    let others = evening.kit.other_levels.iter();
    let others = others.map(|other| format!("; \"{}\": {}", other.section, other.level_of_use));
    let levels = format!("Level of use: {}{}", evening.kit.level_of_use, others.collect::<String>());
    Text::from(title.with(Role::Plain, times(evening)).hang(3))
        .line(Line::plain(levels).indent(2).hang(2))
        .then(persons(&evening.kit).indented(2))
        .then(lists(&evening.kit).indented(2))
        .then(required(&evening.kit).indented(2))
}
