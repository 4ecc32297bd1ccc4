//! A formula as it was written: names and functions are not looked up yet.

use crate::quantity::Quantity;
use crate::source::{Span, Spanned};

/// A part of a formula and where it stands.
#[derive(Clone, Debug)]
pub(super) struct Written {
    pub(super) node: Node,
    pub(super) span: Span,
    /// How many levels there are in it, itself included; bounded by [`super::MAX_DEPTH`].
    pub(super) depth: usize,
}

#[derive(Clone, Debug)]
pub(super) enum Node {
    Number(Quantity),
    Text(String),
    Truth(bool),
    Name(String),
    Negate(Box<Written>),
    Not(Box<Written>),
    Binary(Box<Binary>),
    Choose(Box<Choose>),
    Call(Box<Call>),
}

/// Two parts and what joins them.
#[derive(Clone, Debug)]
pub(super) struct Binary {
    pub(super) operator: Spanned<Operator>,
    pub(super) left: Written,
    pub(super) right: Written,
}

/// `if condition then yes else no`.
#[derive(Clone, Debug)]
pub(super) struct Choose {
    pub(super) condition: Written,
    pub(super) yes: Written,
    pub(super) no: Written,
}

/// `function(value, name = value)`.
#[derive(Clone, Debug)]
pub(super) struct Call {
    pub(super) function: Spanned<String>,
    pub(super) arguments: Vec<Argument>,
    /// The closing bracket: where a missing argument would stand.
    pub(super) close: Span,
}

#[derive(Clone, Debug)]
pub(super) struct Argument {
    pub(super) name: Option<Spanned<String>>,
    pub(super) value: Written,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Operator {
    Add,
    Subtract,
    Multiply,
    Divide,
    Power,
    Compare(Comparison),
    And,
    Or,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Comparison {
    Less,
    AtMost,
    More,
    AtLeast,
    Equal,
    Unequal,
}

impl Node {
    /// How many levels there are below and at this node.
    pub(super) fn depth(&self) -> usize {
        let below = match self {
            Self::Number(_) | Self::Text(_) | Self::Truth(_) | Self::Name(_) => 0,
            Self::Negate(inner) | Self::Not(inner) => inner.depth,
            Self::Binary(binary) => binary.left.depth.max(binary.right.depth),
            Self::Choose(choose) => choose.condition.depth.max(choose.yes.depth).max(choose.no.depth),
            Self::Call(call) => call.arguments.iter().map(|argument| argument.value.depth).max().unwrap_or(0),
        };
        below + 1
    }

    /// The parts directly below, in the order of the text.
    pub(super) fn parts(&self) -> Vec<&Written> {
        match self {
            Self::Number(_) | Self::Text(_) | Self::Truth(_) | Self::Name(_) => Vec::new(),
            Self::Negate(inner) | Self::Not(inner) => vec![inner],
            Self::Binary(binary) => vec![&binary.left, &binary.right],
            Self::Choose(choose) => vec![&choose.condition, &choose.yes, &choose.no],
            Self::Call(call) => call.arguments.iter().map(|argument| &argument.value).collect(),
        }
    }
}
