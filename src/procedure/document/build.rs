//! Puts the blocks of the body where they belong.
//!
//! The events of the Markdown parser are taken one by one, with a stack of what is open and no recursion: the
//! depth of a file is not ours to trust.

use std::ops::ControlFlow;

use pulldown_cmark::{Event, Tag, TagEnd};

use super::codes::{NESTING_TOO_DEEP, TABLE_TOO_WIDE};
use super::inline::Inline;
use super::outline::Outline;
use super::references::{Reference, ReferenceKind};
use crate::procedure::{Group, Passage, PassageKind, StepId};
use crate::source::{Diagnostic, Span};

/// The deepest nesting of lists and quotes that is read.
const DEEPEST: usize = 64;
/// The most columns of a table that are read: a short row is filled up to its header's width.
const WIDEST: usize = 64;

/// What is open around the present place.
#[derive(Debug)]
pub(super) enum Open {
    /// A list of steps.
    List(Group),
    /// A step.
    Item(StepId),
    /// A block quote; where the outermost begins, words collect until it ends.
    Quote,
    /// A list inside a quote: words, not steps; the next number of an ordered one.
    QuotedList(Option<u64>),
}

/// The outline as far as it has been read.
pub(super) struct Builder<'t> {
    pub(super) text: &'t str,
    pub(super) is_reading: &'t dyn Fn(&str) -> bool,
    pub(super) outline: Outline,
    pub(super) diagnostics: Vec<Diagnostic>,
    pub(super) open: Vec<Open>,
    pub(super) inline: Inline,
    /// Prose that waits for the step that follows it.
    pub(super) waiting: Vec<Passage>,
    /// Where the outermost quote begins.
    pub(super) quote: Option<Span>,
}

impl<'t> Builder<'t> {
    pub(super) fn new(text: &'t str, is_reading: &'t dyn Fn(&str) -> bool) -> Self {
        Self {
            text,
            is_reading,
            outline: Outline::default(),
            diagnostics: Vec::new(),
            open: Vec::new(),
            inline: Inline::default(),
            waiting: Vec::new(),
            quote: None,
        }
    }

    /// Takes the next event; breaks when no more may be read.
    pub(super) fn take(&mut self, event: Event<'_>, span: Span) -> ControlFlow<()> {
        if self.inline.take(&event, span) {
            return ControlFlow::Continue(());
        }
        match event {
            Event::Start(tag) => self.start(tag, span),
            Event::End(end) => {
                self.end(end, span);
                ControlFlow::Continue(())
            }
            _ => ControlFlow::Continue(()),
        }
    }

    fn start(&mut self, tag: Tag<'_>, span: Span) -> ControlFlow<()> {
        if !matches!(tag, Tag::TableHead | Tag::TableRow | Tag::TableCell) {
            self.flush_tight(span);
        }
        match tag {
            Tag::List(_) | Tag::Item | Tag::BlockQuote(_) if self.open.len() >= DEEPEST => {
                return self.too_deep(span);
            }
            Tag::Table(columns) if columns.len() > WIDEST => return self.too_wide(span),
            Tag::List(first) if self.quote.is_some() => self.open.push(Open::QuotedList(first)),
            Tag::List(first) => self.start_list(first, span),
            Tag::Item if self.quote.is_some() => self.start_quoted_item(),
            Tag::Item => self.start_step(span),
            Tag::BlockQuote(_) => self.start_quote(span),
            Tag::Paragraph | Tag::Heading { .. } | Tag::CodeBlock(_) | Tag::HtmlBlock | Tag::Table(_)
                if self.quote.is_some() =>
            {
                self.inline.line();
            }
            _ => {}
        }
        ControlFlow::Continue(())
    }

    fn end(&mut self, end: TagEnd, span: Span) {
        match end {
            TagEnd::List(_) => self.end_list(),
            TagEnd::Item => self.end_item(span),
            TagEnd::BlockQuote(_) => self.end_quote(),
            TagEnd::TableCell => self.inline.add(" | "),
            TagEnd::TableHead | TagEnd::TableRow => self.inline.add("\n"),
            _ if self.quote.is_some() => {}
            TagEnd::Paragraph if self.inline.is_only_an_image() => self.place(PassageKind::Image, span),
            TagEnd::Paragraph => self.place(PassageKind::Prose, span),
            TagEnd::CodeBlock => {
                self.inline.says_nothing();
                self.place(PassageKind::Verbatim, span);
            }
            TagEnd::HtmlBlock => self.end_html(span),
            TagEnd::Heading(level) => self.end_heading(level, span),
            TagEnd::Table => self.end_table(span),
            _ => {}
        }
    }

    fn too_deep(&mut self, span: Span) -> ControlFlow<()> {
        let headline = format!("lists and quotes are nested deeper than {DEEPEST}");
        let diagnostic = Diagnostic::error(&NESTING_TOO_DEEP, headline);
        let diagnostic = diagnostic.at(first_line(self.text, span), "one level too many");
        self.diagnostics
            .push(diagnostic.help("divide the work into sections; parts of parts are hard to follow"));
        ControlFlow::Break(())
    }

    fn too_wide(&mut self, span: Span) -> ControlFlow<()> {
        let headline = format!("a table has more than {WIDEST} columns");
        let diagnostic = Diagnostic::error(&TABLE_TOO_WIDE, headline);
        let diagnostic = diagnostic.at(first_line(self.text, span), "no screen shows this");
        self.diagnostics.push(diagnostic.help("divide it into several tables"));
        ControlFlow::Break(())
    }

    pub(super) fn finish(mut self) -> (Outline, Vec<Diagnostic>) {
        while let Some(open) = self.open.last() {
            match open {
                Open::List(_) => self.end_list(),
                _ => drop(self.open.pop()),
            }
        }
        self.end_part();
        let text = self.text;
        let references = self.inline.references.drain(..);
        self.outline.references.extend(references.map(|reference| with_brackets(reference, text)));
        self.outline.step_numbers.append(&mut self.inline.step_numbers);
        (self.outline, self.diagnostics)
    }
}

/// The parser ends the span of `[name][]` before the empty brackets.
fn with_brackets(mut reference: Reference, text: &str) -> Reference {
    let rest = text.get(reference.span.end..).unwrap_or_default();
    if reference.kind == ReferenceKind::Collapsed && rest.starts_with("[]") {
        reference.span.end += 2;
    }
    reference
}

/// The first line of what stands at `span`.
pub(super) fn first_line(text: &str, span: Span) -> Span {
    let words = text.get(span.start..span.end).unwrap_or_default();
    let line = words.lines().next().unwrap_or_default().trim_end();
    Span::new(span.start, span.start + line.len())
}
