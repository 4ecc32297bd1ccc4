//! A formula that is proved: names have types, functions are found, arguments are in their places.

use super::Type;
use super::passes::Over;
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
    /// Whether these words stand in place of a number.
    IsInstead(Box<IsInstead>),
    Binary {
        operator: Operator,
        sides: Box<(Proved, Proved)>,
    },
    Choose(Box<(Proved, Proved, Proved)>),
    Call {
        function: &'static Function,
        arguments: Vec<Passed>,
    },
    Passes(Box<Passes>),
}

/// Whether some words stand in place of the number that a part has else.
#[derive(Clone, Debug)]
pub(super) struct IsInstead {
    pub(super) of: Proved,
    pub(super) words: String,
    /// Whether it is asked with `!=`.
    pub(super) unequal: bool,
}

/// What is passed for one parameter.
#[derive(Clone, Debug)]
pub(super) enum Passed {
    One(Proved),
    Many(Vec<Proved>),
    /// Nothing: the default of the row is taken.
    Default,
}

impl Proved {
    /// The same part with other names: each is what `to` makes of it.
    pub(super) fn renamed(&self, to: &dyn Fn(&str) -> String) -> Self {
        Self { step: self.step.renamed(to), gives: self.gives, span: self.span }
    }
}

impl Step {
    fn renamed(&self, to: &dyn Fn(&str) -> String) -> Self {
        let boxed = |part: &Proved| Box::new(part.renamed(to));
        match self {
            Self::Number(_) | Self::Text(_) | Self::Truth(_) => self.clone(),
            Self::Name(name) => Self::Name(to(name)),
            Self::Negate(inner) => Self::Negate(boxed(inner)),
            Self::Not(inner) => Self::Not(boxed(inner)),
            Self::IsInstead(asked) => {
                Self::IsInstead(Box::new(IsInstead { of: asked.of.renamed(to), ..(**asked).clone() }))
            }
            Self::Binary { operator, sides } => Self::Binary {
                operator: *operator,
                sides: Box::new((sides.0.renamed(to), sides.1.renamed(to))),
            },
            Self::Choose(parts) => {
                let (condition, yes, no) = &**parts;
                Self::Choose(Box::new((condition.renamed(to), yes.renamed(to), no.renamed(to))))
            }
            Self::Call { function, arguments } => Self::Call {
                function,
                arguments: arguments.iter().map(|passed| passed.renamed(to)).collect(),
            },
            Self::Passes(passes) => Self::Passes(Box::new(passes.renamed(to))),
        }
    }
}

impl Passes {
    fn renamed(&self, to: &dyn Fn(&str) -> String) -> Self {
        Self {
            over: self.over,
            of: self.of.renamed(to),
            name: to(&self.name),
            newest: self.newest.as_ref().map(|newest| newest.renamed(to)),
        }
    }
}

impl Passed {
    fn renamed(&self, to: &dyn Fn(&str) -> String) -> Self {
        match self {
            Self::One(part) => Self::One(part.renamed(to)),
            Self::Many(parts) => Self::Many(parts.iter().map(|part| part.renamed(to)).collect()),
            Self::Default => Self::Default,
        }
    }
}

/// The values that a name had in its passes, and what is made of them.
#[derive(Clone, Debug)]
pub(super) struct Passes {
    pub(super) over: Over,
    /// A part that is a name.
    pub(super) of: Proved,
    pub(super) name: String,
    /// How many of the newest are looked at: a plain number; all when it is left out.
    pub(super) newest: Option<Proved>,
}
