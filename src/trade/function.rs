//! A function that formulas can call: what it takes, what it gives, what it assumes and where it comes from.

use std::fmt;

use super::{Arity, Given, Parameter, Refusal};
use crate::quantity::Num;

/// A function that formulas can call: one row of a subject's table.
///
/// ```
/// use bayhand::trade::{Answer, Function, Parameter, Shape};
///
/// const SPARE: Function = Function {
///     name: "spare",
///     summary: "what is left of a material when the job is done",
///     parameters: &[
///         Parameter::amount("bought", "L", "what was bought"),
///         Parameter::amount("used", "L", "what the job takes").at_least("0"),
///     ],
///     result: Shape::Amount("L"),
///     call: |given| Ok(Answer::Number(given.number("bought")? - given.number("used")?)),
///     assumes: &["nothing is spilled"],
///     source: "plain arithmetic",
///     example: "spare(5 L, used = 3.5 L)",
/// };
/// assert_eq!(SPARE.signature(), "spare(bought, used = ...)");
/// ```
#[derive(Clone, Copy)]
pub struct Function {
    /// What it is called in a formula: `[a-z][a-z0-9_]*`.
    pub name: &'static str,
    /// What it gives, in one line without a full stop.
    pub summary: &'static str,
    /// What it is given, in the order of positional arguments; those with a default come last. Of those that measure the
    /// same thing only the first may stand without its name: see [`Function::is_by_name`].
    pub parameters: &'static [Parameter],
    /// What comes out.
    pub result: Shape,
    /// The computation. It gets each number in the unit its parameter names, already within its range, and
    /// answers in the unit that `result` names.
    pub call: fn(&Given<'_>) -> Result<Answer, Refusal>,
    /// What it takes for granted; told to the person beside each result.
    pub assumes: &'static [&'static str],
    /// Where the computation comes from.
    pub source: &'static str,
    /// A call that works, to copy.
    pub example: &'static str,
}

/// What sort of thing a function gives.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shape {
    /// A plain number.
    Number,
    /// An amount in this unit: "L/min", "K" for a difference of temperatures. A formula shows it in the unit of the first
    /// argument that measures the same thing, if one does: a torque for a torque in lbf·ft comes in lbf·ft.
    Amount(&'static str),
    /// A temperature on a scale, in this unit: "°C".
    Temperature(&'static str),
    /// A date, in days from 1970-01-01.
    Date,
    /// The same sort of quantity as the parameters of [`super::Sort::Same`] or [`super::Sort::SameAmount`],
    /// in coherent base units.
    Same,
    /// The same sort of quantity as the parameters of [`super::Sort::Other`], in coherent base units.
    Other,
    /// What two quantities of the sort of those parameters differ by, in coherent base units: of temperatures on a
    /// scale a temperature difference.
    Difference,
    /// The square root of the parameters' sort of quantity, in coherent base units.
    Root,
    /// True or false.
    Truth,
    /// A text, for example the name of a grade.
    Text,
}

/// What a function answers.
#[derive(Clone, Debug, PartialEq)]
pub enum Answer {
    /// A number, in the unit of the function's [`Shape`].
    Number(Num),
    /// A number, and what has to be said of it: that a limit was met, that something is overdue.
    Noted {
        /// In the unit of the function's [`Shape`].
        number: Num,
        /// A clause without a full stop.
        note: String,
    },
    /// True or false.
    Truth(bool),
    /// A text.
    Text(String),
}

impl Answer {
    /// A computed `f64`, refused when it is no finite number.
    pub fn float(value: f64) -> Result<Self, Refusal> {
        if value.is_finite() {
            Ok(Self::Number(Num::approx(value)))
        } else {
            Err(Refusal::of_all("these values have no finite result"))
        }
    }
}

impl Function {
    /// The place of a parameter in the row.
    pub fn position(&self, name: &str) -> Option<usize> {
        self.parameters.iter().position(|parameter| parameter.name == name)
    }

    /// Whether the parameter at `place` is given by its name only: one before it measures the same thing, so that the
    /// two are easily turned round; or it takes several values and is not the last. So does all that follows it.
    ///
    /// ```
    /// let function = bayhand::formula::functions::find("adapter_setting").unwrap();
    /// assert_eq!(function.signature(), "adapter_setting(torque, wrench, adapter = ..., way = longer)");
    /// assert_eq!([0, 1, 2, 3].map(|place| function.is_by_name(place)), [false, false, true, true]);
    /// ```
    pub fn is_by_name(&self, place: usize) -> bool {
        (0..=place).any(|place| self.needs_name(place))
    }

    fn needs_name(&self, place: usize) -> bool {
        let Some((parameter, before)) = self.parameters.get(..=place).and_then(<[Parameter]>::split_last)
        else {
            return false;
        };
        let among_several = parameter.arity == Arity::Many && place + 1 < self.parameters.len();
        let turned_round = !parameter.either_way && before.iter().any(|other| other.measures_like(parameter));
        among_several || turned_round
    }

    /// The call with the names of its parameters: `adapter_setting(torque, wrench, adapter = ..., way = longer)`. What
    /// is given by its name only has an equals sign.
    pub fn signature(&self) -> String {
        let parameters = self.parameters.iter().enumerate();
        let parameters = parameters.map(|(place, parameter)| parameter.in_signature(self.is_by_name(place)));
        format!("{}({})", self.name, parameters.collect::<Vec<_>>().join(", "))
    }
}

impl fmt::Debug for Function {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.signature())
    }
}

/// The functions about one thing, in the order in which they are listed.
#[derive(Clone, Copy, Debug)]
pub struct Subject {
    /// What they are about, in one or two words: "cooler".
    pub name: &'static str,
    /// The functions.
    pub functions: &'static [Function],
}
