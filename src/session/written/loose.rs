//! Loose ends, and what a job hands on to a run, as they stand in the journal.

use serde::{Deserialize, Serialize};

use super::{Unread, unread};
use crate::journal::{read_time, write_time};
use crate::procedure::Name;
use crate::run::{EndId, Inherited, InheritedEnd, InheritedProtection, LooseEvent};

/// An event as written.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum WrittenLoose {
    /// Something is left to be done.
    Noted { what: String },
    /// It was done.
    Settled { end: WrittenEnd, how: String },
    /// It leaves the job undone.
    CarriedOut { end: WrittenEnd, by: String, why: String },
}

/// Which loose end, as written.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum WrittenEnd {
    /// By its place in what was handed on.
    HandedOn(usize),
    /// By its entry, and its name in the procedure.
    Own {
        entry: u64,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        name: Option<String>,
    },
}

impl From<EndId> for WrittenEnd {
    fn from(end: EndId) -> Self {
        match end {
            EndId::HandedOn(place) => Self::HandedOn(place),
            EndId::Own { entry, name } => Self::Own { entry, name: name.map(|name| name.to_string()) },
        }
    }
}

impl From<WrittenEnd> for EndId {
    fn from(end: WrittenEnd) -> Self {
        match end {
            WrittenEnd::HandedOn(place) => Self::HandedOn(place),
            WrittenEnd::Own { entry, name } => Self::Own { entry, name: name.map(Name::from) },
        }
    }
}

impl From<LooseEvent> for WrittenLoose {
    fn from(event: LooseEvent) -> Self {
        match event {
            LooseEvent::Noted { what } => Self::Noted { what },
            LooseEvent::Settled { end, how } => Self::Settled { end: end.into(), how },
            LooseEvent::CarriedOut { end, by, why } => Self::CarriedOut { end: end.into(), by, why },
        }
    }
}

impl WrittenLoose {
    pub(super) fn read(self) -> LooseEvent {
        match self {
            Self::Noted { what } => LooseEvent::Noted { what },
            Self::Settled { end, how } => LooseEvent::Settled { end: end.into(), how },
            Self::CarriedOut { end, by, why } => LooseEvent::CarriedOut { end: end.into(), by, why },
        }
    }
}

/// What the earlier runs of a job leave to one that begins, as written.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WrittenInherited {
    /// Whether nothing of the job comes after it.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    last: bool,
    /// Protections in force.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    protections: Vec<WrittenProtection>,
    /// Loose ends.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    loose_ends: Vec<WrittenInheritedEnd>,
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct WrittenProtection {
    hold: String,
    procedure: String,
    what: String,
    short: String,
    run: String,
    entry: u64,
    by: String,
    at: String,
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct WrittenInheritedEnd {
    what: String,
    run: String,
    entry: u64,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    name: Option<String>,
}

impl WrittenInherited {
    pub(super) fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    pub(super) fn read(self) -> Result<Inherited, Unread> {
        let protections = self.protections.into_iter().map(WrittenProtection::read);
        let ends = self.loose_ends.into_iter().map(|end| InheritedEnd {
            what: end.what,
            run: end.run,
            entry: end.entry,
            name: end.name,
        });
        let protections = protections.collect::<Result<_, _>>()?;
        Ok(Inherited { is_last: self.last, protections, loose_ends: ends.collect() })
    }
}

impl WrittenProtection {
    fn read(self) -> Result<InheritedProtection, Unread> {
        Ok(InheritedProtection {
            hold: self.hold,
            procedure: self.procedure,
            what: self.what,
            short: self.short,
            run: self.run,
            entry: self.entry,
            by: self.by,
            at: read_time(&self.at).map_err(|_| unread(&self.at))?,
        })
    }
}

impl From<&Inherited> for WrittenInherited {
    fn from(inherited: &Inherited) -> Self {
        let protections = inherited.protections.iter().cloned().map(|protection| WrittenProtection {
            hold: protection.hold,
            procedure: protection.procedure,
            what: protection.what,
            short: protection.short,
            run: protection.run,
            entry: protection.entry,
            by: protection.by,
            at: write_time(&protection.at),
        });
        let ends = inherited.loose_ends.iter().cloned().map(|end| WrittenInheritedEnd {
            what: end.what,
            run: end.run,
            entry: end.entry,
            name: end.name,
        });
        Self { last: inherited.is_last, protections: protections.collect(), loose_ends: ends.collect() }
    }
}
