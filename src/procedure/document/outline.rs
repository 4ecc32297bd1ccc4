//! The body as a tree: sections, groups, steps and the prose between them.

use pulldown_cmark::{BrokenLinkCallback, Options, Parser};

use super::build::Builder;
use super::references::{Listener, Reference, ReferenceKind};
use super::step_numbers::StepNumbers;
use crate::procedure::{Group, Passage, Piece, StepId};
use crate::source::{Diagnostic, Found, Span};

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
    pub after: Vec<Passage>,
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
    pub before: Vec<Passage>,
    /// Its first paragraph.
    pub text: Vec<Piece>,
    /// The links in its own words and further paragraphs, not in its notes.
    pub links: Vec<WrittenLink>,
    /// What else stands in it.
    pub passages: Vec<Passage>,
    /// Its parts.
    pub groups: Vec<Group>,
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

/// Reads the body at `body` of `text`; `is_reading` tells which names make a table a data sheet.
pub fn outline(text: &str, body: Span, is_reading: &dyn Fn(&str) -> bool) -> Found<Outline> {
    let listener = Listener::new(body.start);
    let markdown = text.get(body.start..body.end).unwrap_or_default();
    let parser = Parser::new_with_broken_link_callback(
        markdown,
        Options::ENABLE_TABLES,
        Some(|link| listener.answer(&link)),
    );
    let mut builder = Builder::new(text, is_reading);
    builder.outline.references.extend(definitions(&parser, body.start));
    for (event, range) in parser.into_offset_iter() {
        let span = Span::new(range.start, range.end).shifted(body.start);
        if builder.take(event, span).is_break() {
            break;
        }
    }
    let (mut outline, diagnostics): (Outline, Vec<Diagnostic>) = builder.finish();
    outline.references.extend(listener.heard());
    outline.references.sort_by_key(|reference| reference.span);
    outline.step_numbers.sort_by_key(|numbers| numbers.span);
    Found { value: outline, diagnostics }
}

fn definitions<'t, F: BrokenLinkCallback<'t>>(parser: &Parser<'t, F>, base: usize) -> Vec<Reference> {
    let all = parser.reference_definitions().iter();
    let references = all.map(|(label, definition)| Reference {
        kind: ReferenceKind::Definition,
        text: label.to_owned(),
        span: Span::new(definition.span.start, definition.span.end).shifted(base),
    });
    references.collect()
}
