//! What `bayhand calc --help NAME` teaches of a function.

use crate::quantity::{Dimension, Unit};
use crate::terminal::{Line, Role, Text};
use crate::trade::{Function, Parameter, Shape, Sort};

pub(super) fn lesson(function: &Function) -> Text {
    let head = Line::new().with(Role::Strong, function.signature()).hang(4);
    let text = Text::new().line(head).line(Line::plain(format!("Gives {}.", function.summary))).blank();
    let parameters = function.parameters.iter().enumerate();
    let lines = parameters.map(|(place, parameter)| parameter_line(parameter, function.is_by_name(place)));
    let text = lines.fold(text, Text::line);
    let text = text.line(Line::plain(format!("Result: {}", shape(function))));
    let assumed = function.assumes.iter().map(|assumed| Line::plain(format!("Assumes: {assumed}")).hang(2));
    assumed
        .fold(text, Text::line)
        .line(Line::plain(format!("Source: {}", function.source)).hang(2))
        .blank()
        .line(Line::plain(format!("Example: {}", function.example)).hang(4))
}

fn parameter_line(parameter: &Parameter, is_by_name: bool) -> Line {
    let by_name = if is_by_name { ", by its name" } else { "" };
    let range = parameter.range().map(|range| format!(", {range}")).unwrap_or_default();
    let default = parameter.default.map(|default| format!(", {default} if not given")).unwrap_or_default();
    Line::new()
        .with(Role::Strong, parameter.name)
        .with(
            Role::Plain,
            format!(": {} ({}{range}{default}{by_name})", parameter.meaning, sort(parameter.sort)),
        )
        .indent(2)
        .hang(4)
}

pub(super) fn sort(sort: Sort) -> String {
    match sort {
        Sort::Number => "a plain number".to_owned(),
        Sort::Amount(unit) | Sort::Temperature(unit) => format!("in {unit} or any unit of the same kind"),
        Sort::Date => "a date such as 2026-11-01".to_owned(),
        Sort::Other => "any quantity, all of one kind, which may be another".to_owned(),
        Sort::Same | Sort::SameAmount => "any quantity, all of one kind".to_owned(),
        Sort::Text => "a text in quotes".to_owned(),
        Sort::Choice(choices) => format!("one of \"{}\"", choices.join("\", \"")),
    }
}

pub(super) fn shape(function: &Function) -> String {
    match function.result {
        Shape::Number => "a plain number".to_owned(),
        Shape::Amount(unit) if follows(function, unit) => {
            format!("in {unit}, or in the unit of the first argument that measures the same")
        }
        Shape::Amount(unit) | Shape::Temperature(unit) => format!("in {unit}"),
        Shape::Date => "a date".to_owned(),
        Shape::Same => "of the kind that is given".to_owned(),
        Shape::Other => "of the kind of the values that are given".to_owned(),
        Shape::Difference => "a difference of the kind that is given".to_owned(),
        Shape::Root => "the root of the kind that is given".to_owned(),
        Shape::Truth => "true or false".to_owned(),
        Shape::Text => "a text".to_owned(),
    }
}

/// Whether an argument can be of the kind of the result, and so bring its unit.
fn follows(function: &Function, unit: &str) -> bool {
    let dimension = |unit: &str| Unit::parse(unit).map_or(Dimension::NONE, |unit| unit.dimension());
    let wanted = dimension(unit);
    let brings = |parameter: &Parameter| match parameter.sort {
        Sort::Amount(unit) => dimension(unit) == wanted,
        _ => false,
    };
    wanted != Dimension::NONE && function.parameters.iter().any(brings)
}
