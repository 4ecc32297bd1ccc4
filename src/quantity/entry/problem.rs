//! Why a typed text is not a quantity, and the way out.

use std::fmt;

use crate::quantity::{Unit, UnknownUnit};

/// Why a text was not taken as a quantity. Its `Display` is a sentence with the way out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum EntryProblem {
    /// Nothing was typed.
    Empty,
    /// A comma that may stand before decimals or between thousands.
    WhichMeant {
        /// With the comma before decimals, written with a point: `1.234`.
        first: String,
        /// With the comma between thousands, written without it: `1234`.
        second: String,
    },
    /// No number, or none that is written right.
    NotANumber {
        /// What was typed.
        text: String,
        /// What is wrong with it.
        why: &'static str,
    },
    /// The number is there, its unit is not known.
    UnknownUnit(UnknownUnit),
    /// A unit of something else.
    WrongDimension {
        /// The unit that was typed.
        typed: Unit,
        /// The unit that was asked for.
        asked: Unit,
        /// A unit that is spelled like the typed one and fits: `fl oz` for `oz`.
        perhaps: Option<String>,
    },
    /// Longer, larger or finer than anything that is measured.
    TooLarge,
}

impl fmt::Display for EntryProblem {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => out.write_str("nothing was typed; type the number, with a unit if it is another one"),
            Self::WhichMeant { first, second } => {
                write!(out, "this can be read as {first} or as {second}; type the one you mean just like that")
            }
            Self::NotANumber { text, why } => {
                let text: String = text.chars().take(40).collect();
                write!(out, "`{}` is not a number: {why}", crate::source::clean(&text))
            }
            Self::UnknownUnit(problem) => problem.fmt(out),
            Self::WrongDimension { typed, asked, perhaps } => wrong_dimension(out, typed, asked, perhaps.as_deref()),
            Self::TooLarge => out.write_str(
                "that is more digits or a larger number than anything here can be; check it and type it shorter",
            ),
        }
    }
}

impl std::error::Error for EntryProblem {}

fn wrong_dimension(
    out: &mut fmt::Formatter<'_>,
    typed: &Unit,
    asked: &Unit,
    perhaps: Option<&str>,
) -> fmt::Result {
    write!(
        out,
        "`{}` is a unit of {}, and this is {}; ",
        typed.symbol(),
        typed.measures(),
        asked.measures()
    )?;
    match (perhaps, asked.symbol()) {
        (Some(unit), _) => write!(out, "did you mean `{unit}`?"),
        (None, "") => out.write_str("type the number without a unit"),
        (None, unit) => write!(out, "type it in `{unit}` or a unit that can be turned into it"),
    }
}
