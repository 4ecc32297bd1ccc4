//! Whether the arguments of a call are of the right sort, and what sort of thing the call gives.

use super::Type;
use super::check::Checker;
use super::codes::{CHOICE_UNKNOWN, TYPE_MISMATCH, UNIT_MISMATCH};
use super::functions::row_unit;
use super::proof::{Proved, Step};
use super::tree::Call;
use crate::quantity::{Dimension, Kind};
use crate::source::suggest::nearest;
use crate::source::{Diagnostic, Span};
use crate::trade::{Function, Parameter, Shape, Sort};

impl Checker<'_> {
    pub(super) fn sorts(&mut self, function: &Function, proved: &[Vec<Proved>]) -> Option<()> {
        let mut all_good = Some(());
        for (parameter, arguments) in function.parameters.iter().zip(proved) {
            for argument in arguments {
                let good = self.sort(function, parameter, argument);
                all_good = all_good.and(good);
            }
        }
        all_good?;
        self.alike(function, proved)
    }

    /// Whether one argument is of its parameter's sort.
    fn sort(&mut self, function: &Function, parameter: &Parameter, argument: &Proved) -> Option<()> {
        let message =
            format!("`{}` of `{}` must be {}", parameter.name, function.name, wanted(parameter.sort));
        match parameter.sort {
            Sort::Same | Sort::Other => self.quantity(argument, &message),
            Sort::SameAmount => self.amount(argument, &message),
            Sort::Choice(choices) => self.one_of(parameter, choices, argument),
            Sort::Number | Sort::Amount(_) | Sort::Temperature(_) | Sort::Date | Sort::Text => {
                let good = sort_type(parameter.sort) == Some(argument.gives);
                if good { Some(()) } else { self.wrong_sort(&message, parameter, argument) }
            }
        }
    }

    fn wrong_sort(&mut self, message: &str, parameter: &Parameter, argument: &Proved) -> Option<()> {
        let both_quantities = matches!(argument.gives, Type::Quantity { .. })
            && matches!(sort_type(parameter.sort), Some(Type::Quantity { .. }));
        let code = if both_quantities { &UNIT_MISMATCH } else { &TYPE_MISMATCH };
        let mistake = Diagnostic::error(code, message)
            .at(argument.span, format!("this is {}", argument.gives))
            .note(format!("`{}` is {}", parameter.name, parameter.meaning));
        let mistake = self.with_declaration(mistake, argument);
        let mistake = match (parameter.sort.unit(), argument.gives == Type::NUMBER) {
            (Some(unit), true) => mistake.help(format!("give it a unit, for example `{unit}`")),
            _ => mistake,
        };
        self.wrong(mistake)
    }

    fn one_of(&mut self, parameter: &Parameter, choices: &[&'static str], argument: &Proved) -> Option<()> {
        let Step::Text(text) = &argument.step else {
            let message = format!("`{}` must be a text", parameter.name);
            let good = argument.gives == Type::Text;
            return if good { Some(()) } else { self.wrong_sort(&message, parameter, argument) };
        };
        if choices.contains(&text.as_str()) {
            return Some(());
        }
        let mistake =
            Diagnostic::error(&CHOICE_UNKNOWN, format!("there is no {} \"{text}\"", parameter.name))
                .at(argument.span, "not among those that are known")
                .note(format!("the choices are {}", choices.join(", ")));
        self.wrong(match nearest(text, choices.iter().copied()) {
            Some(meant) => mistake
                .help(format!("did you mean \"{meant}\"?"))
                .replace(argument.span, format!("\"{meant}\"")),
            None => mistake,
        })
    }

    /// Whether all arguments that must be of one sort are so.
    fn alike(&mut self, function: &Function, proved: &[Vec<Proved>]) -> Option<()> {
        self.all_alike(function, same_arguments(function, proved))?;
        self.all_alike(function, other_arguments(function, proved))
    }

    fn all_alike<'p>(
        &mut self,
        function: &Function,
        mut same: impl Iterator<Item = &'p Proved>,
    ) -> Option<()> {
        let Some(first) = same.next() else {
            return Some(());
        };
        match same.find(|argument| argument.gives != first.gives) {
            Some(other) => {
                let message = format!("`{}` needs quantities of one sort", function.name);
                let mistake = self.different(&message, first, other);
                self.wrong(mistake)
            }
            None => Some(()),
        }
    }

    pub(super) fn result(
        &mut self,
        function: &Function,
        proved: &[Vec<Proved>],
        call: &Call,
    ) -> Option<Type> {
        let same = same_arguments(function, proved).next();
        match function.result {
            Shape::Number => Some(Type::NUMBER),
            Shape::Amount(unit) => Some(Type::amount(row_unit(unit).dimension())),
            Shape::Temperature(_) => Some(Type::TEMPERATURE),
            Shape::Date => Some(Type::DATE),
            Shape::Truth => Some(Type::Truth),
            Shape::Text => Some(Type::Text),
            Shape::Same => Some(same.map_or(Type::NUMBER, |argument| argument.gives)),
            Shape::Other => {
                Some(other_arguments(function, proved).next().map_or(Type::NUMBER, |argument| argument.gives))
            }
            Shape::Difference => Some(same.map_or(Type::NUMBER, |argument| argument.gives.difference())),
            Shape::Root => match root(same) {
                Some(dimension) => Some(Type::amount(dimension)),
                None => self.no_root(same.map_or(call.function.span, |argument| argument.span)),
            },
        }
    }

    fn no_root(&mut self, span: Span) -> Option<Type> {
        let mistake = Diagnostic::error(&UNIT_MISMATCH, "the unit of this has no square root")
            .at(span, "its unit is not the square of another")
            .help("an area has one: it is a length");
        self.wrong(mistake)
    }
}

fn root(argument: Option<&Proved>) -> Option<Dimension> {
    match argument?.gives {
        Type::Quantity { dimension, kind: Kind::Difference } => dimension.sqrt(),
        _ => None,
    }
}

/// The arguments of all parameters that share one sort, in order.
fn same_arguments<'a>(function: &'a Function, proved: &'a [Vec<Proved>]) -> impl Iterator<Item = &'a Proved> {
    arguments(function, proved, |sort| matches!(sort, Sort::Same | Sort::SameAmount))
}

/// The arguments of all parameters that share the other sort, in order.
fn other_arguments<'a>(
    function: &'a Function,
    proved: &'a [Vec<Proved>],
) -> impl Iterator<Item = &'a Proved> {
    arguments(function, proved, |sort| sort == Sort::Other)
}

fn arguments<'a>(
    function: &'a Function,
    proved: &'a [Vec<Proved>],
    is_meant: fn(Sort) -> bool,
) -> impl Iterator<Item = &'a Proved> {
    let pairs = function.parameters.iter().zip(proved);
    pairs.filter(move |(parameter, _)| is_meant(parameter.sort)).flat_map(|(_, given)| given)
}

/// The one type that a sort allows; `None` where several are good.
fn sort_type(sort: Sort) -> Option<Type> {
    match sort {
        Sort::Number => Some(Type::NUMBER),
        Sort::Amount(unit) => Some(Type::amount(row_unit(unit).dimension())),
        Sort::Temperature(_) => Some(Type::TEMPERATURE),
        Sort::Date => Some(Type::DATE),
        Sort::Text | Sort::Choice(_) => Some(Type::Text),
        Sort::Same | Sort::SameAmount | Sort::Other => None,
    }
}

fn wanted(sort: Sort) -> String {
    match (sort, sort_type(sort)) {
        (Sort::Same | Sort::Other, _) => "a quantity".to_owned(),
        (_, Some(wanted)) => wanted.to_string(),
        (_, None) => "an amount".to_owned(),
    }
}
