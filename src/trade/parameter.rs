//! One parameter of a function: what it is, its unit, and the range in which the function holds.

use std::fmt;

use crate::quantity::{Dimension, Num, Unit};

/// One thing that a function is given.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Parameter {
    /// What it is called: `[a-z][a-z0-9_]*`.
    pub name: &'static str,
    /// What it is, in a mechanic's words.
    pub meaning: &'static str,
    /// What sort of thing it is.
    pub sort: Sort,
    /// What is taken when it is left out, written as in a formula: "0.2", "15 °C"; a text without quotes.
    pub default: Option<&'static str>,
    /// The lower end of the range in which the function holds, in the unit of `sort`.
    pub lower: Option<End>,
    /// The upper end.
    pub upper: Option<End>,
    /// Whether several values may be given.
    pub arity: Arity,
    /// Whether it may be turned round with the one before it: the answer is the same.
    pub either_way: bool,
}

/// What sort of thing a parameter is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sort {
    /// A plain number or a ratio.
    Number,
    /// An amount in this unit: "L/min", "K" for a difference of temperatures.
    Amount(&'static str),
    /// A temperature on a scale, in this unit: "°C".
    Temperature(&'static str),
    /// A date, in days from 1970-01-01.
    Date,
    /// Any quantity; all such parameters of one call are of the same sort. In coherent base units.
    Same,
    /// As [`Sort::Same`], but no temperature on a scale.
    SameAmount,
    /// Any quantity; all such parameters of one call are of the same sort, which may be another than that of
    /// [`Sort::Same`]. In coherent base units.
    Other,
    /// Any text.
    Text,
    /// One of these texts.
    Choice(&'static [&'static str]),
}

/// One end of a range.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct End {
    /// The number, as decimal text, so that it stays exact.
    pub number: &'static str,
    /// Whether the end itself still belongs to the range.
    pub inclusive: bool,
}

/// How many values a parameter takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Arity {
    /// One.
    One,
    /// One or more. One that is not the last is given by its name each time.
    Many,
}

impl Parameter {
    /// A parameter of any sort, without a default and without a range.
    pub const fn new(name: &'static str, sort: Sort, meaning: &'static str) -> Self {
        Self {
            name,
            meaning,
            sort,
            default: None,
            lower: None,
            upper: None,
            arity: Arity::One,
            either_way: false,
        }
    }

    /// An amount in `unit`.
    pub const fn amount(name: &'static str, unit: &'static str, meaning: &'static str) -> Self {
        Self::new(name, Sort::Amount(unit), meaning)
    }

    /// A temperature on a scale in `unit`.
    pub const fn temperature(name: &'static str, unit: &'static str, meaning: &'static str) -> Self {
        Self::new(name, Sort::Temperature(unit), meaning)
    }

    /// A plain number.
    pub const fn number(name: &'static str, meaning: &'static str) -> Self {
        Self::new(name, Sort::Number, meaning)
    }

    /// One of `choices`.
    pub const fn choice(name: &'static str, choices: &'static [&'static str], meaning: &'static str) -> Self {
        Self::new(name, Sort::Choice(choices), meaning)
    }

    /// With a default: this is taken when the argument is left out, and the person is told.
    #[must_use]
    pub const fn or(mut self, default: &'static str) -> Self {
        self.default = Some(default);
        self
    }

    /// May be turned round with the one before it, so that neither needs its name.
    #[must_use]
    pub const fn either_way(mut self) -> Self {
        self.either_way = true;
        self
    }

    /// Takes one or more values.
    #[must_use]
    pub const fn many(mut self) -> Self {
        self.arity = Arity::Many;
        self
    }

    /// Not less than this.
    #[must_use]
    pub const fn at_least(mut self, number: &'static str) -> Self {
        self.lower = Some(End { number, inclusive: true });
        self
    }

    /// More than this.
    #[must_use]
    pub const fn above(mut self, number: &'static str) -> Self {
        self.lower = Some(End { number, inclusive: false });
        self
    }

    /// Not more than this.
    #[must_use]
    pub const fn at_most(mut self, number: &'static str) -> Self {
        self.upper = Some(End { number, inclusive: true });
        self
    }

    /// Less than this.
    #[must_use]
    pub const fn below(mut self, number: &'static str) -> Self {
        self.upper = Some(End { number, inclusive: false });
        self
    }

    /// Whether `number`, in the unit of the sort, lies in the range.
    pub fn allows(&self, number: Num) -> bool {
        let not_below = self.lower.and_then(|end| Some((end, end.value()?)));
        let not_above = self.upper.and_then(|end| Some((end, end.value()?)));
        not_below.is_none_or(|(end, low)| number > low || (end.inclusive && number == low))
            && not_above.is_none_or(|(end, high)| number < high || (end.inclusive && number == high))
    }

    /// The range in words: "from 0 °C to 150 °C", "more than 0 mm".
    pub fn range(&self) -> Option<String> {
        let unit = self.sort.unit().map(|unit| format!(" {unit}")).unwrap_or_default();
        let lower = self.lower.map(|end| format!("{}{unit}", end.in_words("at least", "more than")));
        let upper = self.upper.map(|end| format!("{}{unit}", end.in_words("at most", "less than")));
        match (lower, upper) {
            (Some(lower), Some(upper)) => Some(format!("{lower} and {upper}")),
            (lower, upper) => lower.or(upper),
        }
    }

    /// `by_name`: whether it is given by its name only.
    pub(super) fn in_signature(&self, by_name: bool) -> String {
        let several = if self.arity == Arity::Many && !by_name { ", ..." } else { "" };
        match self.default {
            Some(default) => format!("{} = {default}", self.name),
            None if by_name => format!("{} = ...", self.name),
            None => format!("{}{several}", self.name),
        }
    }

    /// Whether a value of one may be taken for a value of the other: both measure the same thing.
    pub fn measures_like(&self, other: &Self) -> bool {
        self.sort.measures_like(other.sort)
    }
}

impl End {
    /// The number; `None` when the row's text is no decimal number, which a test of the tables rules out.
    pub fn value(self) -> Option<Num> {
        Num::parse_decimal(self.number)
    }

    fn in_words(self, inclusive: &str, exclusive: &str) -> String {
        let words = if self.inclusive { inclusive } else { exclusive };
        format!("{words} {}", self.number)
    }
}

impl Sort {
    /// The unit in which the function wants it.
    pub const fn unit(self) -> Option<&'static str> {
        match self {
            Self::Amount(unit) | Self::Temperature(unit) => Some(unit),
            _ => None,
        }
    }

    fn measures_like(self, other: Self) -> bool {
        match (self, other) {
            (Self::Same | Self::SameAmount, Self::Same | Self::SameAmount)
            | (Self::Temperature(_), Self::Temperature(_))
            | (Self::Date, Self::Date)
            | (Self::Other, Self::Other) => true,
            (Self::Number | Self::Amount(_), Self::Number | Self::Amount(_)) => {
                self.dimension() == other.dimension()
            }
            _ => false,
        }
    }

    fn dimension(self) -> Dimension {
        let unit = self.unit().and_then(|unit| Unit::parse(unit).ok());
        unit.map_or(Dimension::NONE, |unit| unit.dimension())
    }
}

impl fmt::Display for Sort {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Number => out.write_str("a number"),
            Self::Amount(unit) => write!(out, "an amount in {unit}"),
            Self::Temperature(unit) => write!(out, "a temperature in {unit}"),
            Self::Date => out.write_str("a date"),
            Self::Same | Self::Other => out.write_str("a quantity of any sort"),
            Self::SameAmount => out.write_str("an amount of any sort"),
            Self::Text => out.write_str("a text"),
            Self::Choice(choices) => write!(out, "one of {}", choices.join(", ")),
        }
    }
}
