//! Values as they stand in the journal: what was typed, dispositions, pinned bytes.

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use crate::quantity::{Entry, Num, Quantity, Unit};
use crate::run::{Answered, Disposition, KeptFile, Pin};

/// Pinned bytes, as written.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WrittenPin {
    name: String,
    what: String,
    sha256: String,
}

/// A typed quantity, as written: the text, the exact number (`35`, `12.7`, `1/3`) and its unit, the unit asked for.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WrittenEntry {
    text: String,
    number: String,
    unit: String,
    asked: String,
}

/// An answer, as written.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WrittenAnswer {
    /// A quantity or a count.
    Quantity(WrittenEntry),
    /// One of the choices.
    Choice(String),
    /// Free text.
    Text(String),
    /// A date.
    Date(Date),
    /// Names, in order.
    List(Vec<String>),
    /// A file that is kept with the run.
    File(WrittenFile),
    /// A named outcome in place of a value.
    Instead(String),
}

/// A disposition, as written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WrittenDisposition {
    /// Done over.
    Rework,
    /// Made fit.
    Repair,
    /// Stays as it is.
    UseAsIs,
    /// Not used.
    Reject,
}

/// A part of an event that this version cannot read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unread {
    /// What: a number or a unit as written.
    pub what: String,
}

impl std::error::Error for Unread {}

impl std::fmt::Display for Unread {
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(formatter, "`{}` cannot be read by this version", self.what)
    }
}

impl From<Pin> for WrittenPin {
    fn from(Pin { name, what, sha256 }: Pin) -> Self {
        Self { name, what, sha256 }
    }
}

impl From<WrittenPin> for Pin {
    fn from(WrittenPin { name, what, sha256 }: WrittenPin) -> Self {
        Self { name, what, sha256 }
    }
}

impl From<&Entry> for WrittenEntry {
    fn from(entry: &Entry) -> Self {
        Self {
            text: entry.text.clone(),
            number: entry.typed.number.to_exact_text(),
            unit: entry.typed.unit.symbol().to_owned(),
            asked: entry.asked.unit.symbol().to_owned(),
        }
    }
}

impl WrittenEntry {
    pub(in crate::session) fn read(self) -> Result<Entry, Unread> {
        let number = Num::from_exact_text(&self.number).ok_or_else(|| unread(&self.number))?;
        let unit = Unit::parse(&self.unit).map_err(|_| unread(&self.unit))?;
        let asked = Unit::parse(&self.asked).map_err(|_| unread(&self.asked))?;
        let typed = Quantity::new(number, unit);
        let asked = typed.in_unit(&asked).map_err(|_| unread(&self.asked))?;
        Ok(Entry { text: self.text, typed, asked })
    }
}

pub(in crate::session) fn unread(what: &str) -> Unread {
    Unread { what: what.to_owned() }
}

impl From<Answered> for WrittenAnswer {
    fn from(answered: Answered) -> Self {
        match answered {
            Answered::Quantity(entry) => Self::Quantity((&entry).into()),
            Answered::Choice(choice) => Self::Choice(choice),
            Answered::Text(text) => Self::Text(text),
            Answered::Date(date) => Self::Date(date),
            Answered::List(items) => Self::List(items),
            Answered::File(file) => Self::File(file.into()),
            Answered::Instead(words) => Self::Instead(words),
        }
    }
}

impl WrittenAnswer {
    pub(in crate::session) fn read(self) -> Result<Answered, Unread> {
        Ok(match self {
            Self::Quantity(entry) => Answered::Quantity(entry.read()?),
            Self::Choice(choice) => Answered::Choice(choice),
            Self::Text(text) => Answered::Text(text),
            Self::Date(date) => Answered::Date(date),
            Self::List(items) => Answered::List(items),
            Self::File(file) => Answered::File(file.into()),
            Self::Instead(words) => Answered::Instead(words),
        })
    }
}

impl From<Disposition> for WrittenDisposition {
    fn from(disposition: Disposition) -> Self {
        match disposition {
            Disposition::Rework => Self::Rework,
            Disposition::Repair => Self::Repair,
            Disposition::UseAsIs => Self::UseAsIs,
            Disposition::Reject => Self::Reject,
        }
    }
}

impl From<WrittenDisposition> for Disposition {
    fn from(disposition: WrittenDisposition) -> Self {
        match disposition {
            WrittenDisposition::Rework => Self::Rework,
            WrittenDisposition::Repair => Self::Repair,
            WrittenDisposition::UseAsIs => Self::UseAsIs,
            WrittenDisposition::Reject => Self::Reject,
        }
    }
}

/// A file that is kept with the run, as written.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WrittenFile {
    name: String,
    size: u64,
    sha256: String,
}

impl From<KeptFile> for WrittenFile {
    fn from(KeptFile { name, size, sha256 }: KeptFile) -> Self {
        Self { name, size, sha256 }
    }
}

impl From<WrittenFile> for KeptFile {
    fn from(WrittenFile { name, size, sha256 }: WrittenFile) -> Self {
        Self { name, size, sha256 }
    }
}
