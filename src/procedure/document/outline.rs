//! The body as a tree: sections, groups, steps and the prose between them.

use super::references::Reference;
use super::step_numbers::StepNumbers;
use crate::procedure::{Group, Passage, Piece, Rare, StepId};
use crate::source::Span;

/// A heading's words and where it stands.
#[derive(Clone, Debug, Default)]
pub struct Heading {
    /// The words.
    pub text: Vec<Piece>,
    /// Where.
    pub span: Span,
}

/// What stands under one `##` heading; without a heading where steps come before the first one.
#[derive(Clone, Debug, Default)]
pub struct Part {
    /// The heading.
    pub heading: Option<Heading>,
    /// The lists and data sheets, in order.
    pub groups: Vec<Group>,
    /// Prose after the last step.
    pub after: Rare<Passage>,
    /// The heading, or the first step.
    pub span: Span,
}

/// A list item, or a table that asks for readings.
#[derive(Clone, Debug)]
pub struct Written {
    /// The section it stands in, from 0.
    pub section: usize,
    /// The step it is a part of.
    pub parent: Option<StepId>,
    /// Prose in front of it.
    pub before: Rare<Passage>,
    /// Its first paragraph; once its names have their meaning only what stood in front of it.
    pub text: Vec<Piece>,
    /// The links in its own words and further paragraphs, not in its notes.
    pub links: Rare<WrittenLink>,
    /// What else stands in it.
    pub passages: Rare<Passage>,
    /// Its parts.
    pub groups: Rare<Group>,
    /// The number in front of it, as it was typed.
    pub typed: Option<u64>,
    /// Its first line.
    pub span: Span,
}

/// A link with an address.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WrittenLink {
    /// The address, as written.
    pub address: String,
    /// Where.
    pub span: Span,
}

/// The body of a procedure file.
#[derive(Clone, Debug, Default)]
pub struct Outline {
    /// The `#` heading.
    pub title: Option<Heading>,
    /// Prose before the first section and the first step.
    pub introduction: Vec<Passage>,
    /// The sections.
    pub parts: Vec<Part>,
    /// The steps and their parts, in reading order.
    pub steps: Vec<Written>,
    /// Brackets worth a second look.
    pub references: Vec<Reference>,
    /// Numbers of steps in the text.
    pub step_numbers: Vec<StepNumbers>,
    /// Whether reading stopped at a place too deep or too wide: nothing can be said of the rest.
    pub cut_short: bool,
}
