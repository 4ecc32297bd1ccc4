//! A procedure whose names, units and formulas have been proved. Only [`super::check`] makes one.

use std::collections::BTreeMap;
use std::fmt;
use std::sync::OnceLock;

use super::index::Index;
use super::tables::Tables;
use super::{Header, Passage, RuleOff, Section, Step};
use crate::source::{SourceText, Span};

/// A name that the front matter declares and the body mentions: `pan_temp`.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Name(pub String);

impl Name {
    /// The name as written.
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// Whether a text can be a name: a small letter, then small letters, digits and underscores.
    pub fn is_well_formed(text: &str) -> bool {
        crate::table::is_name(text)
    }
}

impl fmt::Display for Name {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(&self.0)
    }
}

/// A procedure that was taken into another because a step links to it.
#[derive(Clone, Debug)]
pub struct Linked {
    /// Where it was found, seen from the folder of the first procedure: `cooler/flush.md`.
    pub address: String,
    /// Its file's name without the ending.
    pub id: String,
    /// Its title.
    pub title: String,
    /// What its front matter says of the file as a whole.
    pub header: Header,
    /// The text it was read from.
    pub text: SourceText,
}

/// Where something stands, when there are several texts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Place {
    /// Which text: see [`CheckedProcedure::source`].
    pub source: usize,
    /// Where in it.
    pub span: Span,
}

/// A procedure that can be run: every name resolved, every unit and formula proved.
#[derive(Clone, Debug)]
pub struct CheckedProcedure {
    pub(super) id: String,
    pub(super) title: String,
    pub(super) text: SourceText,
    pub(super) linked: Vec<Linked>,
    pub(super) places: BTreeMap<Name, Place>,
    pub(super) header: Header,
    pub(super) tables: Tables,
    pub(super) rules_off: Vec<RuleOff>,
    pub(super) introduction: Vec<Passage>,
    pub(super) sections: Vec<Section>,
    pub(super) steps: Vec<Step>,
    /// Where each name stands; worked out when it is first asked for.
    pub(super) index: OnceLock<Index>,
}
