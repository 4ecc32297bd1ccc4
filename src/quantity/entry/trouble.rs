//! What is wrong with a number, while the text around it is not known yet.

use super::EntryProblem;

/// Why a number cannot be read, before it is known in which text it stands.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Trouble {
    /// It is written wrong, and how to write it right.
    Why(&'static str),
    /// A comma with two meanings.
    WhichMeant {
        /// With a decimal point.
        first: String,
        /// With nothing between the thousands.
        second: String,
    },
    /// Too many digits.
    TooLarge,
}

impl Trouble {
    /// The same trouble behind a minus.
    pub(super) fn negative(self) -> Self {
        match self {
            Self::WhichMeant { first, second } => {
                Self::WhichMeant { first: format!("-{first}"), second: format!("-{second}") }
            }
            other => other,
        }
    }

    /// The trouble with this text.
    pub(super) fn with(self, text: &str) -> EntryProblem {
        match self {
            Self::Why(why) => EntryProblem::NotANumber { text: text.to_owned(), why },
            Self::WhichMeant { first, second } => EntryProblem::WhichMeant { first, second },
            Self::TooLarge => EntryProblem::TooLarge,
        }
    }
}
