use std::fmt;

/// What is wrong with a line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Damage {
    /// It is not a line of a journal.
    Unreadable {
        /// What is wrong with it.
        why: String,
    },
    /// It is not what the lines around it say it was when it was written.
    Changed,
    /// Lines that stood here are gone.
    Missing {
        /// The last number that is gone; the first is the number of the line.
        last: u64,
    },
    /// It stands in the wrong place.
    OutOfOrder {
        /// The number that it carries.
        carries: u64,
    },
    /// It is a copy of a line above.
    Doubled {
        /// The line that it is a copy of.
        of: u64,
    },
}

impl fmt::Display for Damage {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unreadable { why } => write!(out, "it cannot be read ({why})"),
            Self::Changed => out.write_str("it was changed after it was written"),
            Self::Missing { last } => write!(out, "events up to number {last} are missing here"),
            Self::OutOfOrder { carries } => {
                write!(out, "event number {carries} stands here, lines were moved")
            }
            Self::Doubled { of } => write!(out, "it is a copy of line {of}"),
        }
    }
}
