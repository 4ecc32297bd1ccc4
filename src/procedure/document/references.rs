//! Brackets that are no plain mention, kept so that a later stage, which knows the names, can judge them.

use std::cell::RefCell;

use pulldown_cmark::{BrokenLink, CowStr};

use crate::procedure::Name;
use crate::source::Span;

/// What a pair of brackets turned out to be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ReferenceKind {
    /// `[name]: ...` at the start of a block: Markdown takes it away.
    Definition,
    /// `[words](address)` or `[words]` with a definition.
    Link,
    /// `[words][name]`.
    Full,
    /// `[name][]`.
    Collapsed,
    /// `![name]`.
    Image,
    /// `[!WORD]`.
    Alert,
    /// `[^1]`.
    Footnote,
    /// `[ ]` in front of a step.
    TaskMarker,
    /// An image without a description.
    SilentImage,
    /// Brackets around what cannot be a name: `[Pan Temp]`.
    Words,
}

/// Such a pair of brackets.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Reference {
    /// What it turned out to be.
    pub kind: ReferenceKind,
    /// What stands in it, or the name it leads to.
    pub text: String,
    /// Where.
    pub span: Span,
}

/// Hears of every bracket that Markdown can make nothing of, and takes those that may be names.
pub(super) struct Listener {
    base: usize,
    heard: RefCell<Vec<Reference>>,
}

impl Listener {
    pub(super) const fn new(base: usize) -> Self {
        Self { base, heard: RefCell::new(Vec::new()) }
    }

    /// The answer to Markdown's question what `[words]` is: a link to itself when it may be a name.
    pub(super) fn answer<'t>(&self, link: &BrokenLink<'_>) -> Option<(CowStr<'t>, CowStr<'t>)> {
        if Name::is_well_formed(&link.reference) {
            return Some((CowStr::Borrowed(""), CowStr::Borrowed("")));
        }
        let kind = match link.reference.chars().next() {
            Some('!') => ReferenceKind::Alert,
            Some('^') => ReferenceKind::Footnote,
            _ => ReferenceKind::Words,
        };
        self.heard.borrow_mut().push(Reference {
            kind,
            text: link.reference.to_string(),
            span: Span::new(link.span.start, link.span.end).shifted(self.base),
        });
        None
    }

    pub(super) fn heard(&self) -> Vec<Reference> {
        let mut heard = self.heard.borrow().clone();
        heard.dedup();
        heard
    }
}
