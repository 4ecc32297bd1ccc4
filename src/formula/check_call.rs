//! The rules of a call: which argument belongs to which parameter, and whether it is of the right sort.

use super::Type;
use super::call_mistakes::{
    given_twice, missing_arguments, no_such_parameter, out_of_order, too_many, unnamed,
};
use super::check::Checker;
use super::functions;
use super::passes::Over;
use super::proof::{Passed, Proved, Step};
use super::tree::{Argument, Call};
use crate::trade::{Arity, Function, Parameter};

/// The arguments of a call, each parameter's together.
type Places<'a> = Vec<Vec<&'a Argument>>;

impl Checker<'_> {
    pub(super) fn call(&mut self, call: &Call) -> Option<(Step, Type)> {
        if let Some(over) = Over::of(call) {
            return self.over_passes(over, call);
        }
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
            .map(|arguments| arguments.iter().map(|argument| self.prove(&argument.value)).collect())
            .collect();
        // What has no place was most likely meant for what is missing.
        let complete = if all_placed { self.complete(function, call, &places) } else { None };
        let proved: Option<Vec<Vec<Proved>>> =
            proved.into_iter().map(|arguments| arguments.into_iter().collect()).collect();
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
            if function.is_by_name(place.min(last)) {
                self.mistakes.push(unnamed(function, place.min(last), argument.value.span));
                break;
            }
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
}

fn passed((parameter, arguments): (&Parameter, Vec<Proved>)) -> Passed {
    match parameter.arity {
        Arity::Many if !arguments.is_empty() => Passed::Many(arguments),
        _ => arguments.into_iter().next().map_or(Passed::Default, Passed::One),
    }
}
