//! `bayhand calc`

use clap::CommandFactory;

use super::arguments::{Arguments, Calc};
use super::calc_lesson::lesson;
use super::calc_list::list;
use super::calc_typed::{Typed, as_typed};
use super::context::Context;
use super::{Exit, calc_data, calc_units};
use crate::formula::{Formula, NoNames, Outcome, Passed, Value, functions};
use crate::quantity::Quantity;
use crate::source::{Diagnostic, SourceText, Spanned, to_json};
use crate::terminal::{Line, Role, Text};

/// Works out a formula, lists the functions or the units, or teaches a function.
pub(super) fn calc(context: &Context, command: &Calc) -> Exit {
    match (command.help.as_deref(), &command.list) {
        (Some(name), _) if !name.is_empty() => teach(context, name, command),
        (None, Some(words)) => list(context, &words.join(" "), command),
        (None, None) if command.units && command.json => context.write_json(&calc_units::data()),
        (None, None) if command.units => context.write(&calc_units::list()),
        (None, None) if !command.formula.is_empty() => {
            work_out(context, command.formula.join(" ").trim(), command)
        }
        (Some(_), _) | (None, None) => help(context),
    }
}

fn help(context: &Context) -> Exit {
    let mut arguments = Arguments::command();
    let calc = arguments.find_subcommand_mut("calc");
    let calc = calc.map(|calc| calc.clone().bin_name("bayhand calc").render_long_help());
    context.write(&calc.map(|help| help.to_string()).unwrap_or_default())
}

fn teach(context: &Context, name: &str, command: &Calc) -> Exit {
    match functions::find(name.trim()) {
        Some(function) if command.json => return context.write_json(&calc_data::one(function)),
        Some(function) => return context.show(&lesson(function)),
        None => {}
    }
    let near =
        functions::meant(name).map(|near| format!("did you mean `{}`? ", near.name)).unwrap_or_default();
    context.found(&format!("there is no function `{name}`; {near}`bayhand calc --list` names all"))
}

fn work_out(context: &Context, text: &str, command: &Calc) -> Exit {
    let typed = match as_typed(text) {
        Err(problem) if !command.json => return context.found(&problem.to_string()),
        typed => typed.unwrap_or_default(),
    };
    let text = typed.as_ref().map_or(text, |typed| &typed.formula);
    let source = SourceText::new("the formula", text);
    match outcome(text) {
        Ok((formula, outcome)) if command.json => context.write_json(&calc_data::result(&formula, &outcome)),
        Ok((formula, outcome)) => context.show(&shown(&source, &formula, &outcome, typed.as_ref())),
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

fn shown(source: &SourceText, formula: &Formula, outcome: &Outcome, typed: Option<&Typed>) -> Text {
    let passed = outcome.trace.passed();
    let is_told = |number: &Spanned<Quantity>| passed.iter().any(|passed| passed.span == number.span);
    let numbers = formula.numbers().into_iter().filter(|number| typed.is_none() && !is_told(number));
    let text = typed.into_iter().map(Typed::line).fold(Text::new(), Text::line);
    let text = numbers.filter_map(|number| understood(source, &number)).fold(text, Text::line);
    let text = passed.iter().map(given).fold(text, Text::line);
    let text = text.line(Line::new().with(Role::Strong, outcome.trace.show()).hang(4));
    let text = exactly(&outcome.value).into_iter().fold(text, Text::line);
    let noted = outcome.trace.notes().iter().map(|note| Line::plain(format!("note: {note}")).hang(4));
    let assumed = outcome.trace.assumptions().iter();
    let assumed = assumed.map(|assumed| Line::plain(format!("assumed: {assumed}")).hang(4));
    noted.chain(assumed).fold(text, Text::line)
}

/// What a function was given, by the name of its parameter: a value in the wrong place is seen.
fn given(passed: &Passed) -> Line {
    let Passed { name, meaning, value, .. } = passed;
    Line::plain(format!("{name}: {value}, {meaning}")).hang(4)
}

/// A number as it was understood; a plain one needs no word.
fn understood(source: &SourceText, number: &Spanned<Quantity>) -> Option<Line> {
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
