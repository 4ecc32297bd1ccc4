//! `bayhand calc`

use clap::CommandFactory;

use super::arguments::{Arguments, Calc};
use super::context::Context;
use super::{Exit, calc_data, calc_units};
use crate::formula::{Formula, NoNames, Outcome, Value, functions};
use crate::quantity::{Dimension, Unit};
use crate::source::{Diagnostic, SourceText, Spanned, to_json};
use crate::terminal::{Line, Role, Text};
use crate::trade::{Function, Parameter, Shape, Sort, Subject};

/// Works out a formula, lists the functions or the units, or teaches a function.
pub(super) fn calc(context: &Context, command: &Calc) -> Exit {
    match (command.help.as_deref(), &command.formula) {
        (Some(name), _) if !name.is_empty() => teach(context, name, command),
        (None, _) if command.list && command.json => context.write(&calc_data::list(functions::subjects())),
        (None, _) if command.list => context.write(&list()),
        (None, _) if command.units && command.json => context.write(&calc_units::data()),
        (None, _) if command.units => context.write(&calc_units::list()),
        (None, Some(formula)) => work_out(context, formula, command),
        (Some(_), _) | (None, None) => help(context),
    }
}

fn help(context: &Context) -> Exit {
    let mut arguments = Arguments::command();
    let calc = arguments.find_subcommand_mut("calc");
    let calc = calc.map(|calc| calc.clone().bin_name("bayhand calc").render_long_help());
    context.write(&calc.map(|help| help.to_string()).unwrap_or_default())
}

/// One line a function, however long: a list is searched by line.
fn list() -> String {
    let row = |function: &Function| format!("  {}: {}\n", function.name, function.summary);
    let subject = |subject: &Subject| {
        format!("{}\n{}", subject.name, subject.functions.iter().map(row).collect::<Vec<_>>().concat())
    };
    functions::subjects().map(subject).collect::<Vec<_>>().concat()
}

fn teach(context: &Context, name: &str, command: &Calc) -> Exit {
    match functions::find(name.trim()) {
        Some(function) if command.json => return context.write(&calc_data::one(function)),
        Some(function) => return context.show(&lesson(function)),
        None => {}
    }
    let near =
        functions::meant(name).map(|near| format!("did you mean `{}`? ", near.name)).unwrap_or_default();
    context.found(&format!("there is no function `{name}`; {near}`bayhand calc --list` names all"))
}

fn lesson(function: &Function) -> Text {
    let head = Line::new().with(Role::Strong, function.signature()).hang(4);
    let text = Text::new().line(head).line(Line::plain(format!("Gives {}.", function.summary))).blank();
    let text = function.parameters.iter().fold(text, |text, parameter| text.line(parameter_line(parameter)));
    let text = text.line(Line::plain(format!("Result: {}", shape(function))));
    let assumed = function.assumes.iter().map(|assumed| Line::plain(format!("Assumes: {assumed}")).hang(2));
    assumed
        .fold(text, Text::line)
        .line(Line::plain(format!("Source: {}", function.source)).hang(2))
        .blank()
        .line(Line::plain(format!("Example: {}", function.example)).hang(4))
}

fn parameter_line(parameter: &Parameter) -> Line {
    let range = parameter.range().map(|range| format!(", {range}")).unwrap_or_default();
    let default = parameter.default.map(|default| format!(", {default} if not given")).unwrap_or_default();
    Line::new()
        .with(Role::Strong, parameter.name)
        .with(Role::Plain, format!(": {} ({}{range}{default})", parameter.meaning, sort(parameter.sort)))
        .indent(2)
        .hang(4)
}

pub(super) fn sort(sort: Sort) -> String {
    match sort {
        Sort::Number => "a plain number".to_owned(),
        Sort::Amount(unit) | Sort::Temperature(unit) => format!("in {unit} or any unit of the same kind"),
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
        Shape::Same => "of the kind that is given".to_owned(),
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

fn work_out(context: &Context, text: &str, command: &Calc) -> Exit {
    let source = SourceText::new("the formula", text);
    match outcome(text) {
        Ok((formula, outcome)) if command.json => context.write(&calc_data::result(&formula, &outcome)),
        Ok((formula, outcome)) => context.show(&shown(&source, &formula, &outcome)),
        Err(mistakes) if command.json => match context.write(&to_json(&mistakes, &source)) {
            Exit::Done => Exit::Found,
            exit => exit,
        },
        Err(mistakes) => {
            context.diagnose(&mistakes, &source);
            Exit::Found
        }
    }
}

fn outcome(text: &str) -> Result<(Formula, Outcome), Vec<Diagnostic>> {
    let formula = Formula::parse(text, 0)?;
    let typed = formula.clone().check(&NoNames)?;
    let outcome = typed.explained(&NoNames).map_err(|problem| vec![typed.explain(&problem)])?;
    Ok((formula, outcome))
}

fn shown(source: &SourceText, formula: &Formula, outcome: &Outcome) -> Text {
    let understood = formula.numbers().into_iter().filter_map(|number| understood(source, &number));
    let text = understood.fold(Text::new(), Text::line);
    let text = text.line(Line::new().with(Role::Strong, outcome.trace.show()).hang(4));
    let text = exactly(&outcome.value).into_iter().fold(text, Text::line);
    let assumed = outcome.trace.assumptions().iter();
    assumed.fold(text, |text, assumed| text.line(Line::plain(format!("assumed: {assumed}")).hang(4)))
}

/// A number as it was understood; a plain one needs no word.
fn understood(source: &SourceText, number: &Spanned<crate::quantity::Quantity>) -> Option<Line> {
    let written = source.slice(number.span);
    let measures = number.value.unit.measures();
    (!number.value.unit.symbol().is_empty())
        .then(|| Line::plain(format!("{written}: {}, {measures}", number.value)))
}

/// The result with all its digits, where the line above rounds it.
fn exactly(value: &Value) -> Option<Line> {
    let Value::Quantity(quantity) = value else { return None };
    let (short, long) = (value.to_string(), quantity.to_string());
    (short != long).then(|| Line::plain(format!("more digits: {long}")))
}
