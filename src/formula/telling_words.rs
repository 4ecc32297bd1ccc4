//! The words for the signs and functions of a formula.

use super::tree::Comparison;

/// What joins the parts of something true or false.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Join {
    None,
    And,
    Or,
}

impl Join {
    pub(super) const fn sign(self) -> &'static str {
        match self {
            Self::None => "",
            Self::And => " and ",
            Self::Or => " or ",
        }
    }
}

/// ` is at most `.
pub(super) const fn relation(comparison: Comparison) -> &'static str {
    match comparison {
        Comparison::Less => " is below ",
        Comparison::AtMost => " is at most ",
        Comparison::More => " is above ",
        Comparison::AtLeast => " is at least ",
        Comparison::Equal => " is ",
        Comparison::Unequal => " is not ",
    }
}

/// The comparison that holds where this one does not.
pub(super) const fn turned(comparison: Comparison) -> Comparison {
    match comparison {
        Comparison::Less => Comparison::AtLeast,
        Comparison::AtMost => Comparison::More,
        Comparison::More => Comparison::AtMost,
        Comparison::AtLeast => Comparison::Less,
        Comparison::Equal => Comparison::Unequal,
        Comparison::Unequal => Comparison::Equal,
    }
}

/// The comparison with its sides exchanged.
pub(super) const fn mirrored(comparison: Comparison) -> Comparison {
    match comparison {
        Comparison::Less => Comparison::More,
        Comparison::AtMost => Comparison::AtLeast,
        Comparison::More => Comparison::Less,
        Comparison::AtLeast => Comparison::AtMost,
        Comparison::Equal | Comparison::Unequal => comparison,
    }
}

/// What a function makes of what follows: `the least of `.
pub(super) fn made_of(function: &str) -> String {
    match function {
        "min" => "the least of ".to_owned(),
        "max" => "the greatest of ".to_owned(),
        "abs" => "the size of ".to_owned(),
        "sqrt" => "the square root of ".to_owned(),
        name => format!("the {} of ", name.replace('_', " ")),
    }
}

/// What stands before one of several.
pub(super) const fn listed_as(place: usize, count: usize) -> &'static str {
    match place {
        0 => "",
        _ if place + 1 == count => " and ",
        _ => ", ",
    }
}
