//! The rules of a call: which argument belongs to which parameter, and whether it is of the right sort.

use super::check::Checker;
use super::codes::{ARGUMENT_MISSING, ARGUMENT_UNKNOWN, CHOICE_UNKNOWN, TYPE_MISMATCH, UNIT_MISMATCH};
use super::functions;
use super::proof::{Passed, Proved, Step};
use super::tree::{Argument, Call};
use super::{Type, functions::row_unit};
use crate::quantity::{Dimension, Kind};
use crate::source::suggest::nearest;
use crate::source::{Diagnostic, Span};
use crate::trade::{Arity, Function, Parameter, Shape, Sort};

/// The arguments of a call, each parameter's together.
type Places<'a> = Vec<Vec<&'a Argument>>;

impl Checker<'_> {
    pub(super) fn call(&mut self, call: &Call) -> Option<(Step, Type)> {
        let Some(function) = functions::find(&call.function.value) else {
            let mistake = self.no_such_function(&call.function.value, call.function.span);
            for argument in &call.arguments {
                self.prove(&argument.value);
            }
            return self.wrong(mistake);
        };
        let mistakes = self.mistakes.len();
        let places = self.places(function, call);
        let all_placed = self.mistakes.len() == mistakes;
        let proved: Vec<Vec<Option<Proved>>> = places
            .iter()
            .map(|arguments| {
                arguments
                    .iter()
                    .map(|argument| self.prove(&argument.value))
                    .collect()
            })
            .collect();
        // What has no place was most likely meant for what is missing.
        let complete = if all_placed {
            self.complete(function, call, &places)
        } else {
            None
        };
        let proved: Option<Vec<Vec<Proved>>> = proved
            .into_iter()
            .map(|arguments| arguments.into_iter().collect())
            .collect();
        let proved = proved?;
        self.sorts(function, &proved)?;
        complete?;
        let gives = self.result(function, &proved, call)?;
        let arguments = function.parameters.iter().zip(proved).map(passed).collect();
        Some((Step::Call { function, arguments }, gives))
    }

    /// Puts each argument into its place; those that have none are mistakes.
    fn places<'a>(&mut self, function: &'static Function, call: &'a Call) -> Places<'a> {
        let mut places: Places<'a> = vec![Vec::new(); function.parameters.len()];
        let named = call.arguments.iter().position(|argument| argument.name.is_some());
        let (in_order, by_name) = call.arguments.split_at(named.unwrap_or(call.arguments.len()));
        let last = function.parameters.len().saturating_sub(1);
        for (place, argument) in in_order.iter().enumerate() {
            match function.parameters.get(place.min(last)) {
                Some(parameter) if place <= last || parameter.arity == Arity::Many => {
                    places[place.min(last)].push(argument);
                }
                _ => self.mistakes.push(too_many(function, argument.value.span)),
            }
        }
        for argument in by_name {
            if let Some(position) = self.position(function, argument) {
                self.put(&mut places, function, position, argument);
            }
        }
        places
    }

    fn position(&mut self, function: &Function, argument: &Argument) -> Option<usize> {
        let Some(name) = &argument.name else {
            return self.wrong(out_of_order(argument.value.span));
        };
        match function.position(&name.value) {
            Some(position) => Some(position),
            None => self.wrong(no_such_parameter(function, &name.value, name.span)),
        }
    }

    fn put<'a>(
        &mut self,
        places: &mut Places<'a>,
        function: &Function,
        position: usize,
        argument: &'a Argument,
    ) {
        let parameter = &function.parameters[position];
        let place = &mut places[position];
        match place.first() {
            Some(first) if parameter.arity == Arity::One => {
                let mistake = given_twice(parameter, first.value.span, argument.value.span);
                self.mistakes.push(mistake);
            }
            _ => place.push(argument),
        }
    }

    /// Whether everything without a default is given.
    fn complete(&mut self, function: &Function, call: &Call, places: &Places<'_>) -> Option<()> {
        let given = function.parameters.iter().zip(places);
        let missing: Vec<&Parameter> = given
            .filter(|(parameter, arguments)| arguments.is_empty() && parameter.default.is_none())
            .map(|(parameter, _)| parameter)
            .collect();
        if missing.is_empty() {
            return Some(());
        }
        self.wrong(missing_arguments(function, &missing, call))
    }

    fn sorts(&mut self, function: &Function, proved: &[Vec<Proved>]) -> Option<()> {
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
        let message = format!(
            "`{}` of `{}` must be {}",
            parameter.name,
            function.name,
            wanted(parameter.sort)
        );
        match parameter.sort {
            Sort::Same => self.quantity(argument, &message),
            Sort::SameAmount => self.amount(argument, &message),
            Sort::Choice(choices) => self.one_of(parameter, choices, argument),
            Sort::Number | Sort::Amount(_) | Sort::Temperature(_) | Sort::Text => {
                let good = sort_type(parameter.sort) == Some(argument.gives);
                if good {
                    Some(())
                } else {
                    self.wrong_sort(&message, parameter, argument)
                }
            }
        }
    }

    fn wrong_sort(&mut self, message: &str, parameter: &Parameter, argument: &Proved) -> Option<()> {
        let both_quantities = matches!(argument.gives, Type::Quantity { .. })
            && matches!(sort_type(parameter.sort), Some(Type::Quantity { .. }));
        let code = if both_quantities {
            &UNIT_MISMATCH
        } else {
            &TYPE_MISMATCH
        };
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
            return if good {
                Some(())
            } else {
                self.wrong_sort(&message, parameter, argument)
            };
        };
        if choices.contains(&text.as_str()) {
            return Some(());
        }
        let mistake = Diagnostic::error(
            &CHOICE_UNKNOWN,
            format!("there is no {} \"{text}\"", parameter.name),
        )
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
        let mut same = same_arguments(function, proved);
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

    fn result(&mut self, function: &Function, proved: &[Vec<Proved>], call: &Call) -> Option<Type> {
        let same = same_arguments(function, proved).next();
        match function.result {
            Shape::Number => Some(Type::NUMBER),
            Shape::Amount(unit) => Some(Type::amount(row_unit(unit).dimension())),
            Shape::Temperature(_) => Some(Type::TEMPERATURE),
            Shape::Truth => Some(Type::Truth),
            Shape::Text => Some(Type::Text),
            Shape::Same => Some(same.map_or(Type::NUMBER, |argument| argument.gives)),
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
        Type::Quantity {
            dimension,
            kind: Kind::Difference,
        } => dimension.sqrt(),
        _ => None,
    }
}

/// The arguments of all parameters that share one sort, in order.
pub(super) fn same_arguments<'a>(
    function: &'a Function,
    proved: &'a [Vec<Proved>],
) -> impl Iterator<Item = &'a Proved> {
    let pairs = function.parameters.iter().zip(proved);
    pairs
        .filter(|(parameter, _)| matches!(parameter.sort, Sort::Same | Sort::SameAmount))
        .flat_map(|(_, given)| given)
}

fn passed((parameter, arguments): (&Parameter, Vec<Proved>)) -> Passed {
    match parameter.arity {
        Arity::Many if !arguments.is_empty() => Passed::Many(arguments),
        _ => arguments.into_iter().next().map_or(Passed::Default, Passed::One),
    }
}

/// The one type that a sort allows; `None` where several are good.
pub(super) fn sort_type(sort: Sort) -> Option<Type> {
    match sort {
        Sort::Number => Some(Type::NUMBER),
        Sort::Amount(unit) => Some(Type::amount(row_unit(unit).dimension())),
        Sort::Temperature(_) => Some(Type::TEMPERATURE),
        Sort::Text | Sort::Choice(_) => Some(Type::Text),
        Sort::Same | Sort::SameAmount => None,
    }
}

fn wanted(sort: Sort) -> String {
    match (sort, sort_type(sort)) {
        (Sort::Same, _) => "a quantity".to_owned(),
        (_, Some(wanted)) => wanted.to_string(),
        (_, None) => "an amount".to_owned(),
    }
}

fn no_such_parameter(function: &Function, name: &str, span: Span) -> Diagnostic {
    let mistake = Diagnostic::error(
        &ARGUMENT_UNKNOWN,
        format!("`{}` has no parameter `{name}`", function.name),
    )
    .at(span, "there is none of this name")
    .note(format!("it is called as `{}`", function.signature()));
    match nearest(name, function.parameters.iter().map(|parameter| parameter.name)) {
        Some(meant) => mistake
            .help(format!("did you mean `{meant}`?"))
            .replace(span, meant),
        None => mistake,
    }
}

fn too_many(function: &Function, span: Span) -> Diagnostic {
    let count = function.parameters.len();
    let takes = if count == 1 {
        "1 argument".to_owned()
    } else {
        format!("{count} arguments")
    };
    Diagnostic::error(
        &ARGUMENT_UNKNOWN,
        format!("too many arguments for `{}`", function.name),
    )
    .at(span, format!("it takes {takes}"))
    .note(format!("it is called as `{}`", function.signature()))
}

fn out_of_order(span: Span) -> Diagnostic {
    Diagnostic::error(
        &ARGUMENT_UNKNOWN,
        "an argument without a name follows one with a name",
    )
    .at(span, "which parameter this belongs to is not clear")
    .help("give the arguments in order first, then those with names; or all of them with names")
}

fn given_twice(parameter: &Parameter, first: Span, second: Span) -> Diagnostic {
    Diagnostic::error(&ARGUMENT_UNKNOWN, format!("`{}` is given twice", parameter.name))
        .at(second, "given again here")
        .also(first, "given here first")
}

fn missing_arguments(function: &Function, missing: &[&Parameter], call: &Call) -> Diagnostic {
    let names: Vec<String> = missing
        .iter()
        .map(|parameter| format!("`{}`", parameter.name))
        .collect();
    let mistake = Diagnostic::error(
        &ARGUMENT_MISSING,
        format!("`{}` needs {}", function.name, names.join(" and ")),
    )
    .at(
        call.close,
        format!(
            "{} missing here",
            if missing.len() == 1 {
                "one argument is"
            } else {
                "arguments are"
            }
        ),
    )
    .note(format!("it is called as `{}`", function.signature()));
    let mistake = missing.iter().fold(mistake, |mistake, parameter| {
        mistake.note(format!(
            "`{}` is {}: {}",
            parameter.name, parameter.meaning, parameter.sort
        ))
    });
    mistake.help(format!("for example `{}`", function.example))
}
