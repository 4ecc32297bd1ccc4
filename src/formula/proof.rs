//! A formula that is proved: names have types, functions are found, arguments are in their places.

use super::Type;
use super::tree::Operator;
use crate::quantity::Quantity;
use crate::source::Span;
use crate::trade::Function;

/// A part of a proved formula.
#[derive(Clone, Debug)]
pub(super) struct Proved {
    pub(super) step: Step,
    /// What sort of thing it gives.
    pub(super) gives: Type,
    pub(super) span: Span,
}

/// How a part is worked out.
#[derive(Clone, Debug)]
pub(super) enum Step {
    Number(Quantity),
    Text(String),
    Truth(bool),
    Name(String),
    Negate(Box<Proved>),
    Not(Box<Proved>),
    Binary { operator: Operator, sides: Box<(Proved, Proved)> },
    Choose(Box<(Proved, Proved, Proved)>),
    Call { function: &'static Function, arguments: Vec<Passed> },
}

/// What is passed for one parameter.
#[derive(Clone, Debug)]
pub(super) enum Passed {
    One(Proved),
    Many(Vec<Proved>),
    /// Nothing: the default of the row is taken.
    Default,
}
