//! The body of a checked procedure: sections, steps, passages.

use super::{LevelOfUse, Name, Rare};
use crate::source::{Span, Spanned};

/// A piece of running text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Piece {
    /// Words as they are shown: markup taken off.
    Text(String),
    /// A name that stands for what it means: a reading's blank or value, a tool, a role.
    Mention(Spanned<Name>),
}

/// What a passage is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PassageKind {
    /// Explanation.
    Prose,
    /// A note: a block quote.
    Note,
    /// Shown as it stands: code, raw HTML.
    Verbatim,
    /// A table without readings: a row a line, ` | ` after each cell.
    Table,
    /// A picture; its alternative text. One within a sentence stands behind it as well.
    Image,
    /// A heading below the section's own.
    Heading,
}

impl PassageKind {
    /// Whether a reading or a link that it names is asked for there. A note, a picture and a heading only speak of it.
    pub fn asks(self) -> bool {
        matches!(self, Self::Prose | Self::Verbatim | Self::Table)
    }
}

/// A paragraph, a note, a code block: anything that is shown and is not a step.
#[derive(Clone, Debug)]
pub struct Passage {
    /// What it is.
    pub kind: PassageKind,
    /// What it says.
    pub text: Vec<Piece>,
    /// Where the picture is: a path seen from the folder of the first procedure, or an address on a network. Of nothing else.
    pub address: Option<String>,
    /// Where it stands.
    pub span: Span,
}

/// A step's place among all the steps of a procedure, in reading order, from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct StepId(pub usize);

/// A section's place in a procedure, from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct SectionId(pub usize);

/// Whether the items of a list are done in their order.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Order {
    /// An ordered list: in this order.
    InOrder,
    /// A bullet list: in any order, all of them.
    AnyOrder,
}

/// The steps of one list.
#[derive(Clone, Debug)]
pub struct Group {
    /// Whether their order counts.
    pub order: Order,
    /// The steps, in the order of the text.
    pub steps: Vec<StepId>,
}

/// A section: a `##` heading and what stands under it.
#[derive(Clone, Debug)]
pub struct Section {
    /// The heading, without the names in it; empty for steps that stand before the first heading.
    pub title: String,
    /// Conditions that the heading names: all must hold.
    pub conditions: Rare<Name>,
    /// Hazards that the heading names: acknowledged before the section's first step.
    pub hazards: Rare<Name>,
    /// The repeat that makes it be done more than once.
    pub repeat: Option<Name>,
    /// How strictly it is followed.
    pub level: LevelOfUse,
    /// Its lists, in order. Prose stands with the step that follows it.
    pub groups: Vec<Group>,
    /// Prose after the last step, or of a section without steps.
    pub after: Rare<Passage>,
    /// The heading.
    pub span: Span,
}

/// The procedure that a step runs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Link {
    /// The title of that procedure.
    pub title: String,
    /// What its names begin with here, without the stroke: `flush`, `flush#2` where it is run again, `flush/bleed`
    /// where it is run within `flush`.
    pub id: String,
    /// The text it stands in: see [`super::CheckedProcedure::source`].
    pub source: usize,
}

/// A step, or a part of one.
#[derive(Clone, Debug)]
pub struct Step {
    /// Its place among all steps.
    pub id: StepId,
    /// As a person says it: `3.2`, or `3.2.1` for a part: section, step, part.
    pub number: String,
    /// The names by which texts speak of it.
    pub names: Rare<Name>,
    /// The section it belongs to.
    pub section: SectionId,
    /// The step it is a part of.
    pub parent: Option<StepId>,
    /// Prose, notes and headings that stand before it.
    pub before: Rare<Passage>,
    /// What it says, without the roles, hazards and conditions at its front.
    pub text: Vec<Piece>,
    /// Further paragraphs and notes inside it.
    pub passages: Rare<Passage>,
    /// Whose step it is; empty: the lead's. Two: both at once.
    pub who: Rare<Name>,
    /// Conditions it names: all must hold.
    pub conditions: Rare<Name>,
    /// Hazards it names: shown before it, DANGER and WARNING acknowledged.
    pub hazards: Rare<Name>,
    /// The hold point it is.
    pub hold: Option<Name>,
    /// Readings taken here, in order.
    pub takes: Rare<Name>,
    /// Values computed and judged here, in order.
    pub computes: Rare<Name>,
    /// Waits whose clock starts when it is done.
    pub starts: Rare<Name>,
    /// Waits that must be over before it is done.
    pub needs: Rare<Name>,
    /// The repeat that makes it be done more than once, with its parts.
    pub repeat: Option<Name>,
    /// Where exactly one of its parts is done: what they are ways to do.
    pub alternatives: Option<Name>,
    /// Groups of fasteners tightened here.
    pub fasteners: Rare<Name>,
    /// Checks by another person once it is done.
    pub checks: Rare<Name>,
    /// Witness points: somebody is called before it.
    pub witnesses: Rare<Name>,
    /// Critical acts: typed before it.
    pub critical: Rare<Name>,
    /// Limits that come into force when it is done.
    pub watch_begins: Rare<Name>,
    /// Limits that are in force until it is done.
    pub watch_ends: Rare<Name>,
    /// What falls due from the day on which it is done.
    pub dues: Rare<Name>,
    /// The state in which the job can rest once it is done.
    pub stopping_point: Option<Name>,
    /// The loose ends that it leaves.
    pub leaves: Rare<Name>,
    /// The procedure that is run here: its sections are the first parts of this step.
    pub link: Option<Box<Link>>,
    /// Its parts. It is done with the last of them.
    pub groups: Rare<Group>,
    /// The text it stands in: see [`super::CheckedProcedure::source`].
    pub source: usize,
    /// Where it stands.
    pub span: Span,
}

impl Step {
    /// A step that says, asks and does nothing yet, in the procedure's own text.
    pub(super) fn bare(id: StepId, span: Span) -> Self {
        Self {
            id,
            number: String::new(),
            names: Rare::default(),
            section: SectionId(0),
            parent: None,
            before: Rare::default(),
            text: Vec::new(),
            passages: Rare::default(),
            who: Rare::default(),
            conditions: Rare::default(),
            hazards: Rare::default(),
            hold: None,
            takes: Rare::default(),
            computes: Rare::default(),
            starts: Rare::default(),
            needs: Rare::default(),
            repeat: None,
            alternatives: None,
            fasteners: Rare::default(),
            checks: Rare::default(),
            witnesses: Rare::default(),
            critical: Rare::default(),
            watch_begins: Rare::default(),
            watch_ends: Rare::default(),
            dues: Rare::default(),
            stopping_point: None,
            leaves: Rare::default(),
            link: None,
            groups: Rare::default(),
            source: 0,
            span,
        }
    }
}
