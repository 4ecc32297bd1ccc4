//! What a function is given in one call, and how it refuses.

use super::Parameter;
use crate::quantity::Num;

/// The value of one parameter in one call.
#[derive(Clone, Debug, PartialEq)]
pub enum Argument {
    /// A number, in the unit that the parameter names.
    Number(Num),
    /// A text.
    Text(String),
    /// One or more numbers, in the unit that the parameter names.
    Many(Vec<Num>),
}

/// What a function is given in one call.
#[derive(Clone, Copy, Debug)]
pub struct Given<'a> {
    parameters: &'a [Parameter],
    arguments: &'a [Argument],
}

/// Why a function gives no result.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Refusal {
    /// The parameter whose value is at fault; none when it is all of them together.
    pub parameter: Option<String>,
    /// What is wrong and which values would do, as a clause without a full stop.
    pub message: String,
}

impl Refusal {
    /// The value of one parameter is at fault.
    pub fn of(parameter: &str, message: impl Into<String>) -> Self {
        Self { parameter: Some(parameter.to_owned()), message: message.into() }
    }

    /// The values do not go together.
    pub fn of_all(message: impl Into<String>) -> Self {
        Self { parameter: None, message: message.into() }
    }
}

impl<'a> Given<'a> {
    /// Arguments in the order of `parameters`.
    pub const fn new(parameters: &'a [Parameter], arguments: &'a [Argument]) -> Self {
        Self { parameters, arguments }
    }

    /// The number given for a parameter, in the unit that the parameter names.
    pub fn number(&self, name: &str) -> Result<Num, Refusal> {
        match self.argument(name) {
            Some(Argument::Number(number)) => Ok(*number),
            _ => Err(Self::not_given(name, "a number")),
        }
    }

    /// As [`Given::number`], as `f64` for functions that leave exact numbers anyway.
    pub fn float(&self, name: &str) -> Result<f64, Refusal> {
        self.number(name).map(Num::to_f64)
    }

    /// As [`Given::number`], where only a whole number makes sense: a count, a number of times.
    pub fn whole(&self, name: &str) -> Result<i32, Refusal> {
        let exact = self.number(name)?.exact().filter(num_rational::Ratio::is_integer);
        let whole = exact.and_then(|ratio| i32::try_from(*ratio.numer()).ok());
        whole.ok_or_else(|| Refusal::of(name, "must be a whole number"))
    }

    /// The numbers given for a parameter that takes several.
    pub fn many(&self, name: &str) -> Result<&'a [Num], Refusal> {
        match self.argument(name) {
            Some(Argument::Many(numbers)) => Ok(numbers),
            _ => Err(Self::not_given(name, "a list of numbers")),
        }
    }

    /// The text given for a parameter.
    pub fn text(&self, name: &str) -> Result<&'a str, Refusal> {
        match self.argument(name) {
            Some(Argument::Text(text)) => Ok(text),
            _ => Err(Self::not_given(name, "a text")),
        }
    }

    fn argument(&self, name: &str) -> Option<&'a Argument> {
        let position = self.parameters.iter().position(|parameter| parameter.name == name)?;
        self.arguments.get(position)
    }

    fn not_given(name: &str, what: &str) -> Refusal {
        Refusal::of_all(format!("the function asks for {what} called `{name}`, which its row does not have"))
    }
}
