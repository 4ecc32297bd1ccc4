//! The working out of a call that goes over the passes of a repeat.

use super::evaluate::{Evaluator, Worked, known, whole};
use super::evaluate_call::{Shown, answered, refused};
use super::known::Known;
use super::passes::Over;
use super::passes_mistakes::HOW_MANY;
use super::proof::Passes;
use super::proof::Proved;
use super::{EvalProblem, Value};
use crate::quantity::Num;
use crate::source::Span;
use crate::trade::{Argument, Function, Given};

/// How many values a trace shows; of more, those in the middle are left out.
const MOST_SHOWN: usize = 12;
/// How many of the oldest, and of the newest, are shown then.
const SHOWN_AT_EACH_END: usize = 3;

/// What a name was in one pass, and how it is shown; nothing where nobody asks how the result came about.
type InPass = (Value, String);

impl Evaluator<'_> {
    pub(super) fn passes(&mut self, passes: &Passes, call: &Proved) -> Worked<Known<'static>> {
        let values = self.values(passes)?;
        match passes.over {
            Over::Before => self.picked(values.into_iter().rev().nth(1), passes, call),
            Over::First => self.picked(values.into_iter().next(), passes, call),
            Over::Last => self.picked(values.into_iter().next_back(), passes, call),
            Over::Count => {
                let count = Num::from(i64::try_from(values.len()).unwrap_or(i64::MAX));
                self.show_all(&values, passes);
                Ok(Known::Number { base: count, unit: None })
            }
            Over::Fold(function) => {
                self.show_all(&values, passes);
                folded(function, &all_known(values, passes)?, call.span)
            }
        }
    }

    /// The values in the passes that are looked at, oldest first; at least as many as are needed.
    fn values(&mut self, passes: &Passes) -> Worked<Vec<InPass>> {
        let newest = passes.newest.as_ref().map(|newest| self.how_many(newest)).transpose()?;
        let name = &passes.name;
        let values = self.world.passes_of(name, newest.unwrap_or(passes.over.looks_at()));
        let (count, needed) = (values.len(), newest.unwrap_or(passes.over.needs()));
        if count == 0 && newest.is_none() && needed == 1 {
            return Err(EvalProblem::NotKnownYet(name.clone()));
        }
        if count < needed {
            return Err(EvalProblem::TooFewPasses { name: name.clone(), passes: count, needed });
        }
        let shown = |(at, value)| {
            let shown = self.shown_in_pass(passes, &value, count - at);
            (value, shown)
        };
        Ok(values.into_iter().enumerate().map(shown).collect())
    }

    fn how_many(&mut self, newest: &Proved) -> Worked<usize> {
        let (number, _) = self.number(newest)?;
        let whole =
            whole(number).filter(|number| *number > 0).and_then(|number| usize::try_from(number).ok());
        whole.ok_or_else(|| EvalProblem::OutOfRange {
            message: HOW_MANY.to_owned(),
            given: format!("this is {}", number.shown()),
            span: newest.span,
        })
    }

    /// How one value is shown; `age` is 1 for the newest. What a person typed is known of the present value only.
    fn shown_in_pass(&self, passes: &Passes, value: &Value, age: usize) -> String {
        if !self.is_telling() {
            return String::new();
        }
        let is_present = age == 1 && self.world.value_of(&passes.name).as_ref() == Some(value);
        let typed = if is_present { self.world.typed(&passes.name) } else { None };
        typed.unwrap_or_else(|| in_full(value))
    }

    /// The value of one pass stands for the whole call.
    fn picked(&mut self, picked: Option<InPass>, passes: &Passes, call: &Proved) -> Worked<Known<'static>> {
        let (value, shown) = picked.ok_or_else(|| EvalProblem::NotKnownYet(passes.name.clone()))?;
        self.substitute(call.span, || shown);
        known(value, passes.of.gives, &passes.name)
    }

    fn show_all(&mut self, values: &[InPass], passes: &Passes) {
        if !values.is_empty() {
            self.substitute(passes.of.span, || listed(values));
        }
    }
}

/// All of them have to be what is promised: a pass without a number is never passed over.
fn all_known(values: Vec<InPass>, passes: &Passes) -> Worked<Vec<Known<'static>>> {
    values.into_iter().map(|(value, _)| known(value, passes.of.gives, &passes.name)).collect()
}

fn folded(function: &'static Function, values: &[Known<'_>], call: Span) -> Worked<Known<'static>> {
    let mut shown = Shown::default();
    let mut numbers = Vec::with_capacity(values.len());
    for known in values {
        if let Known::Number { base, unit } = known {
            numbers.push(*base);
            shown.same = shown.same.or_else(|| unit.clone());
        }
    }
    let answer = (function.call)(&Given::new(function.parameters, &[Argument::Many(numbers)]))
        .map_err(|refusal| refused(function, &refusal, &[], call))?;
    Ok(answered(function, answer, shown))
}

/// With all its digits: a spread of a few micrometres must be seen in the values it comes from.
fn in_full(value: &Value) -> String {
    match value {
        Value::Quantity(quantity) => quantity.to_string(),
        Value::Truth(_) | Value::Text(_) | Value::Instead(_) => value.to_string(),
    }
}

fn listed(values: &[InPass]) -> String {
    let joined =
        |values: &[InPass]| values.iter().map(|(_, shown)| shown.as_str()).collect::<Vec<_>>().join(", ");
    if values.len() <= MOST_SHOWN {
        return joined(values);
    }
    let (oldest, rest) = values.split_at(SHOWN_AT_EACH_END);
    let (between, newest) = rest.split_at(rest.len() - SHOWN_AT_EACH_END);
    format!("{}, ... {} more ..., {}", joined(oldest), between.len(), joined(newest))
}
