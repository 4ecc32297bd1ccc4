//! What sort of thing a formula gives: a quantity, true or false, a text.

use std::fmt;

use crate::quantity::{Dimension, Kind, Unit};

/// What sort of thing a formula, or a name in one, stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Type {
    /// A number with what it measures; a temperature on a scale is a point, all else a difference.
    Quantity {
        /// What it measures.
        dimension: Dimension,
        /// A place on a scale or an amount.
        kind: Kind,
    },
    /// True or false.
    Truth,
    /// A text, for example a choice.
    Text,
}

impl Type {
    /// A plain number: a count, a ratio.
    pub const NUMBER: Self = Self::amount(Dimension::NONE);

    /// An amount.
    pub const fn amount(dimension: Dimension) -> Self {
        Self::Quantity { dimension, kind: Kind::Difference }
    }

    /// A temperature on a scale.
    pub const TEMPERATURE: Self = Self::Quantity { dimension: Dimension::TEMPERATURE, kind: Kind::Point };

    /// A day of the calendar.
    pub const DATE: Self = Self::Quantity { dimension: Dimension::TIME, kind: Kind::Point };

    /// A place on a scale as a person calls it: a date, or else a temperature.
    pub(super) fn place(self) -> &'static str {
        if self == Self::DATE { "date" } else { "temperature" }
    }

    /// What two of these differ by: of temperatures on a scale a temperature difference.
    #[must_use]
    pub(super) const fn difference(self) -> Self {
        match self {
            Self::Quantity { dimension, .. } => Self::amount(dimension),
            Self::Truth | Self::Text => self,
        }
    }

    /// What is read in a unit.
    pub fn of(unit: &Unit) -> Self {
        Self::Quantity { dimension: unit.dimension(), kind: unit.kind() }
    }
}

/// With its article, to stand after "this is": `a pressure`, `a temperature difference`, `true or false`.
impl fmt::Display for Type {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Quantity { dimension, kind } => out.write_str(&measured(*dimension, *kind)),
            Self::Truth => out.write_str("true or false"),
            Self::Text => out.write_str("a text"),
        }
    }
}

fn measured(dimension: Dimension, kind: Kind) -> String {
    if dimension == Dimension::TIME && kind == Kind::Point {
        return "a date".to_owned();
    }
    if dimension == Dimension::TEMPERATURE && kind == Kind::Difference {
        return "a temperature difference".to_owned();
    }
    let name = dimension.name();
    match name.chars().next() {
        Some('a' | 'e' | 'i' | 'o') => format!("an {name}"),
        _ if UNCOUNTED.contains(&name.as_str()) => name,
        _ => format!("a {name}"),
    }
}

/// What takes no article.
const UNCOUNTED: [&str; 2] = ["money", "power"];
