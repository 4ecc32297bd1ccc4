//! A procedure whose names, units and formulas have been proved. Only [`super::check`] makes one.

use std::collections::{BTreeMap, HashMap};
use std::sync::OnceLock;

use super::tables::Tables;
use super::{Header, Name, Passage, RuleOff, Section, SectionId, Step, StepId};
use crate::source::{SourceText, Span};

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

/// Where in the body each name stands.
#[derive(Clone, Debug, Default)]
pub(super) struct Index {
    /// The step at which a reading is taken, a value computed, a group tightened.
    pub(super) homes: HashMap<Name, StepId>,
    /// The steps at which a hold point is verified.
    pub(super) holds: HashMap<Name, Vec<StepId>>,
    /// The step that starts a wait.
    pub(super) starts: HashMap<Name, StepId>,
    pub(super) numbers: HashMap<String, StepId>,
    pub(super) repeats: HashMap<Name, Repeated>,
    /// The hold points that end what another one puts in force.
    pub(super) enders: HashMap<Name, Vec<Name>>,
}

/// What a repeat makes be done more than once.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Repeated {
    /// A section.
    Section(SectionId),
    /// A step with its parts.
    Step(StepId),
}
