//! What is answered: values, what is decided about departures, how a sitting ends.

use jiff::civil::Date;

use crate::quantity::{Entry, Limits, Quantity};

/// What was answered where a reading is asked for.
#[derive(Clone, Debug, PartialEq)]
pub enum Answered {
    /// A quantity or a count.
    Quantity(Entry),
    /// One of the choices.
    Choice(String),
    /// Free text.
    Text(String),
    /// A date.
    Date(Date),
    /// Names, in order.
    List(Vec<String>),
    /// A file that is kept with the run.
    File(KeptFile),
    /// One of the named outcomes in place of a value.
    Instead(String),
}

/// Exactly which bytes lie with a run as a reading.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KeptFile {
    /// What the file was called where it came from.
    pub name: String,
    /// Its length in bytes.
    pub size: u64,
    /// SHA-256 of its bytes, in hexadecimal.
    pub sha256: String,
}

impl Answered {
    /// As a person reads it; with its conversion when it was typed in another unit than asked for.
    pub fn shown(&self) -> String {
        self.shown_beside(None)
    }

    /// The same beside its limits: with as many digits as tell it from them.
    pub fn shown_beside(&self, limits: Option<&Limits>) -> String {
        let beside = |quantity: &Quantity| quantity.shown_beside(Quantity::DIGITS, limits);
        match self {
            Self::Quantity(entry) if entry.typed.unit == entry.asked.unit => beside(&entry.asked),
            Self::Quantity(entry) => format!("{} = {}", beside(&entry.typed), beside(&entry.asked)),
            Self::File(file) => format!("{} ({} bytes)", file.name, file.size),
            other => other.as_typed(),
        }
    }

    /// What a person types to say it.
    pub fn as_typed(&self) -> String {
        match self {
            Self::Quantity(entry) => entry.text.clone(),
            Self::Choice(text) | Self::Text(text) | Self::Instead(text) => text.clone(),
            Self::Date(date) => date.to_string(),
            Self::List(items) => items.join(", "),
            Self::File(file) => file.name.clone(),
        }
    }
}

/// What is decided about a departure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Disposition {
    /// It was, or will be, done over so that it meets the requirement.
    Rework,
    /// It was made fit for use, without meeting the requirement in full.
    Repair,
    /// It stays as it is, with a reason.
    UseAsIs,
    /// It is not used.
    Reject,
}

impl Disposition {
    /// All of them, in the order in which they are offered.
    pub const ALL: [Self; 4] = [Self::Rework, Self::Repair, Self::UseAsIs, Self::Reject];

    /// As it is said and written: `use as is`.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Rework => "rework",
            Self::Repair => "repair",
            Self::UseAsIs => "use as is",
            Self::Reject => "reject",
        }
    }

    /// With what it means, for a person who has to choose.
    pub fn meaning(self) -> String {
        let meaning = match self {
            Self::Rework => "done over until it meets the requirement",
            Self::Repair => "made fit for use, short of the requirement",
            Self::UseAsIs => "stays as it is, with a reason",
            Self::Reject => "is not used",
        };
        format!("{}: {meaning}", self.words())
    }

    /// The disposition of these words.
    pub fn from_words(words: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|disposition| disposition.words().eq_ignore_ascii_case(words.trim()))
    }
}

/// How a sitting ends before the run does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Leave {
    /// Planned: go on another time.
    Suspend,
    /// Something is wrong: every protection is verified again before anything goes on.
    Stop,
}
