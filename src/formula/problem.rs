//! Why a proved formula has no result now, and how a person is told.

use std::fmt;

use super::codes::{DIVISION_BY_ZERO, OUT_OF_RANGE, VALUE_MISSING};
use crate::source::{Diagnostic, Span};

/// Why a proved formula has no result now.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum EvalProblem {
    /// This name has no value yet.
    NotKnownYet(String),
    /// This name has a value in fewer passes than are needed.
    TooFewPasses {
        /// The name.
        name: String,
        /// In how many passes that count it has a value.
        passes: usize,
        /// How many are needed.
        needed: usize,
    },
    /// Words stand in place of the number that this name has else.
    NoNumber {
        /// The name.
        name: String,
        /// What came out instead.
        words: String,
    },
    /// What stands here came out as zero, and something is divided by it.
    DivisionByZero(Span),
    /// A function does not hold for what it is given here, or the result has no place among the numbers.
    OutOfRange {
        /// Which range, as a headline.
        message: String,
        /// The value, and what it is: "this is 8.5 kg/L".
        given: String,
        /// The argument, or the call.
        span: Span,
    },
    /// The world gives a value of another sort than the scope promised.
    WrongValue {
        /// The name.
        name: String,
    },
}

impl EvalProblem {
    /// The problem as something to show beside the formula.
    pub fn diagnostic(&self) -> Diagnostic {
        let headline = self.to_string();
        match self {
            Self::NotKnownYet(_) => Diagnostic::error(&VALUE_MISSING, headline)
                .help("read it first, or look it up in the vehicle sheet"),
            Self::TooFewPasses { .. } => Diagnostic::error(&VALUE_MISSING, headline)
                .help("it is known after more passes of the repeat"),
            Self::NoNumber { name, words } => Diagnostic::error(&VALUE_MISSING, headline)
                .help(format!("ask for it first: `if {name} == \"{words}\" then ...`")),
            Self::DivisionByZero(span) => {
                Diagnostic::error(&DIVISION_BY_ZERO, headline).at(*span, "this came out as zero")
            }
            Self::OutOfRange { given, span, .. } => {
                Diagnostic::error(&OUT_OF_RANGE, headline).at(*span, given.clone())
            }
            Self::WrongValue { .. } => Diagnostic::error(&VALUE_MISSING, headline).help("read it again"),
        }
    }
}

impl fmt::Display for EvalProblem {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NotKnownYet(name) => write!(out, "`{name}` is not known yet"),
            Self::TooFewPasses { name, passes, needed } => {
                let passes = match passes {
                    0 => "no pass".to_owned(),
                    1 => "1 pass".to_owned(),
                    _ => format!("{passes} passes"),
                };
                write!(out, "`{name}` has a value in {passes} so far, and {needed} are needed")
            }
            Self::NoNumber { name, words } => write!(out, "`{name}` is \"{words}\", no number"),
            Self::DivisionByZero(_) => out.write_str("a division by zero"),
            Self::OutOfRange { message, .. } => out.write_str(message),
            Self::WrongValue { name } => {
                write!(out, "`{name}` has a value of another sort than it is declared with")
            }
        }
    }
}

impl std::error::Error for EvalProblem {}
