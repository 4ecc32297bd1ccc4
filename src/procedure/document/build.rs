//! Puts the blocks of the body where they belong.
//!
//! The events of the Markdown parser are taken one by one, with a stack of what is open and no recursion: the
//! depth of a file is not ours to trust.

use std::ops::ControlFlow;

use pulldown_cmark::{Event, HeadingLevel, Tag, TagEnd};

use super::codes::{NESTING_TOO_DEEP, TABLE_TOO_WIDE};
use super::inline::Inline;
use super::outline::{Heading, Outline, Part, Written};
use super::references::{Reference, ReferenceKind};
use crate::procedure::{Group, Order, Passage, PassageKind, Piece, StepId};
use crate::source::{Diagnostic, Span};

/// The deepest nesting of lists and quotes that is read.
const DEEPEST: usize = 64;
/// The most columns of a table that are read: a short row is filled up to its header's width.
const WIDEST: usize = 64;

/// What is open around the present place.
#[derive(Debug)]
enum Open {
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
    text: &'t str,
    is_reading: &'t dyn Fn(&str) -> bool,
    pub(super) outline: Outline,
    diagnostics: Vec<Diagnostic>,
    open: Vec<Open>,
    inline: Inline,
    /// Prose that waits for the step that follows it.
    waiting: Vec<Passage>,
    /// Where the outermost quote begins.
    quote: Option<Span>,
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
            TagEnd::CodeBlock => self.place(PassageKind::Verbatim, span),
            TagEnd::HtmlBlock => self.end_html(span),
            TagEnd::Heading(level) => self.end_heading(level, span),
            TagEnd::Table => self.end_table(span),
            _ => {}
        }
    }

    /// The words of a tight list item have no paragraph around them: they end where the next block begins.
    fn flush_tight(&mut self, next: Span) {
        if self.quote.is_none() && !self.inline.is_empty() && matches!(self.open.last(), Some(Open::Item(_)))
        {
            self.place(PassageKind::Prose, Span::new(next.start, next.start));
        }
    }

    fn start_list(&mut self, first: Option<u64>, span: Span) {
        if self.outline.parts.is_empty() {
            self.outline.introduction.append(&mut self.waiting);
            self.begin_part(None, span);
        }
        let order = if first.is_some() {
            Order::InOrder
        } else {
            Order::AnyOrder
        };
        self.open.push(Open::List(Group {
            order,
            steps: Vec::new(),
        }));
    }

    fn end_list(&mut self) {
        let Some(Open::List(group)) = self.open.pop() else {
            return;
        };
        if let Some(step) = self.innermost_step() {
            step.groups.push(group);
        } else if let Some(part) = self.outline.parts.last_mut() {
            part.groups.push(group);
        }
    }

    fn start_step(&mut self, span: Span) {
        let id = self.add_step(first_line(self.text, span));
        if let Some(Open::List(group)) = self.open.last_mut() {
            group.steps.push(id);
        }
        self.open.push(Open::Item(id));
    }

    fn add_step(&mut self, span: Span) -> StepId {
        let parent = self.innermost();
        let before = if parent.is_none() {
            std::mem::take(&mut self.waiting)
        } else {
            Vec::new()
        };
        let id = StepId(self.outline.steps.len());
        self.outline.steps.push(Written {
            section: self.outline.parts.len().saturating_sub(1),
            parent,
            before,
            text: Vec::new(),
            passages: Vec::new(),
            groups: Vec::new(),
            span,
        });
        id
    }

    fn end_item(&mut self, span: Span) {
        if self.quote.is_none() {
            self.flush_tight(Span::new(span.end, span.end));
            self.open.pop();
        }
    }

    fn innermost(&self) -> Option<StepId> {
        let item = |open: &Open| match open {
            Open::Item(id) => Some(*id),
            _ => None,
        };
        self.open.iter().rev().find_map(item)
    }

    fn innermost_step(&mut self) -> Option<&mut Written> {
        let id = self.innermost()?;
        self.outline.steps.get_mut(id.0)
    }

    fn start_quote(&mut self, span: Span) {
        self.quote.get_or_insert(span);
        self.open.push(Open::Quote);
    }

    fn end_quote(&mut self) {
        self.open.pop();
        if !self.open.iter().any(|open| matches!(open, Open::Quote))
            && let Some(span) = self.quote.take()
        {
            self.place(PassageKind::Note, span);
        }
    }

    fn start_quoted_item(&mut self) {
        self.inline.line();
        let mark = match self.open.last_mut() {
            Some(Open::QuotedList(Some(number))) => {
                *number = number.saturating_add(1);
                format!("{}. ", number.saturating_sub(1))
            }
            _ => "- ".to_owned(),
        };
        self.inline.add(&mark);
    }

    fn end_html(&mut self, span: Span) {
        let raw = self.text.get(span.start..span.end).unwrap_or_default().trim();
        if raw.starts_with("<!--") && raw.ends_with("-->") {
            self.inline.finish();
        } else {
            self.place(PassageKind::Verbatim, span);
        }
    }

    fn end_heading(&mut self, level: HeadingLevel, span: Span) {
        let inside = self.innermost().is_some();
        match level {
            HeadingLevel::H1 if !inside && self.outline.title.is_none() && self.outline.parts.is_empty() => {
                let text = self.inline.finish();
                self.outline.title = Some(Heading { text, span });
            }
            HeadingLevel::H1 if !inside => self.stray_title(span),
            HeadingLevel::H2 if !inside => self.start_part(span),
            _ => self.place(PassageKind::Heading, span),
        }
    }

    fn stray_title(&mut self, span: Span) {
        let diagnostic = super::codes::stray_title(self.outline.title.as_ref(), first_line(self.text, span));
        self.diagnostics.push(diagnostic);
        let late = self.inline.finish();
        if self.outline.title.is_none() {
            self.outline.title = Some(Heading { text: late, span });
        } else {
            self.keep(PassageKind::Heading, late, span);
        }
    }

    fn start_part(&mut self, span: Span) {
        self.end_part();
        let text = self.inline.finish();
        self.begin_part(Some(Heading { text, span }), span);
    }

    fn begin_part(&mut self, heading: Option<Heading>, span: Span) {
        let span = first_line(self.text, span);
        self.outline.parts.push(Part {
            heading,
            span,
            ..Part::default()
        });
    }

    /// Prose that no step followed stays with the section that ends here.
    fn end_part(&mut self) {
        let waiting = std::mem::take(&mut self.waiting);
        match self.outline.parts.last_mut() {
            Some(part) => part.after.extend(waiting),
            None => self.outline.introduction.extend(waiting),
        }
    }

    fn end_table(&mut self, span: Span) {
        let text = self.inline.finish();
        if self.innermost().is_some() || !text.iter().any(|piece| self.asks(piece)) {
            self.keep(PassageKind::Verbatim, text, span);
            return;
        }
        if self.outline.parts.is_empty() {
            self.outline.introduction.append(&mut self.waiting);
            self.begin_part(None, span);
        }
        let id = self.add_step(first_line(self.text, span));
        if let Some(step) = self.outline.steps.last_mut() {
            step.text = text;
        }
        if let Some(part) = self.outline.parts.last_mut() {
            part.groups.push(Group {
                order: Order::InOrder,
                steps: vec![id],
            });
        }
    }

    fn asks(&self, piece: &Piece) -> bool {
        matches!(piece, Piece::Mention(name) if (self.is_reading)(name.value.as_str()))
    }

    /// Puts the words read so far where they belong.
    fn place(&mut self, kind: PassageKind, span: Span) {
        let text = self.inline.finish();
        self.keep(kind, text, span);
    }

    fn keep(&mut self, kind: PassageKind, text: Vec<Piece>, span: Span) {
        if text.is_empty() {
            return;
        }
        self.second_fence(kind, span);
        let passage = Passage { kind, text, span };
        let Some(step) = self.innermost_step() else {
            self.waiting.push(passage);
            return;
        };
        let first = step.text.is_empty() && step.passages.is_empty() && step.groups.is_empty();
        if first && kind == PassageKind::Prose {
            step.text = passage.text;
            let marker = task_marker(&mut step.text, step.span);
            self.outline.references.extend(marker);
        } else {
            step.passages.push(passage);
        }
    }

    fn second_fence(&mut self, kind: PassageKind, span: Span) {
        let line = first_line(self.text, span);
        if kind == PassageKind::Prose && self.text.get(line.start..line.end) == Some("+++") {
            self.diagnostics.push(super::codes::second_front_matter(line));
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
        self.diagnostics
            .push(diagnostic.help("divide it into several tables"));
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
        self.outline
            .references
            .extend(references.map(|reference| with_brackets(reference, text)));
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
fn first_line(text: &str, span: Span) -> Span {
    let words = text.get(span.start..span.end).unwrap_or_default();
    let line = words.lines().next().unwrap_or_default().trim_end();
    Span::new(span.start, span.start + line.len())
}

/// Takes `[ ]` off the front of a step: a step has its own mark.
fn task_marker(text: &mut [Piece], step: Span) -> Option<Reference> {
    let Some(Piece::Text(words)) = text.first_mut() else {
        return None;
    };
    *words = words.strip_prefix("[ ]")?.trim_start().to_owned();
    Some(Reference {
        kind: ReferenceKind::TaskMarker,
        text: "[ ]".to_owned(),
        span: step,
    })
}
