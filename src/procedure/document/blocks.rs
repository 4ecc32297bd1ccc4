//! Paragraphs, headings, tables: everything that is no list.

use pulldown_cmark::HeadingLevel;

use super::build::{Builder, first_line};
use super::codes::{TITLE_STRAY, second_front_matter};
use super::inline::WrittenPicture;
use super::outline::{Heading, Part};
use super::references::{Reference, ReferenceKind};
use crate::procedure::{Group, Order, Passage, PassageKind, Piece};
use crate::source::{Diagnostic, Span};

impl Builder<'_> {
    pub(super) fn end_html(&mut self, span: Span) {
        let raw = self.text.get(span.start..span.end).unwrap_or_default().trim();
        if raw.starts_with("<!--") && raw.ends_with("-->") {
            self.inline.finish();
        } else {
            self.place(PassageKind::Verbatim, span);
        }
    }

    pub(super) fn end_heading(&mut self, level: HeadingLevel, span: Span) {
        let inside = self.innermost().is_some();
        match level {
            HeadingLevel::H1 if !inside && self.outline.title.is_none() && self.outline.parts.is_empty() => {
                let text = self.inline.finish();
                self.outline.title = Some(Heading { text, span: first_line(self.text, span) });
            }
            HeadingLevel::H1 if !inside => self.stray_title(span),
            HeadingLevel::H2 if !inside => self.start_part(span),
            _ => self.place(PassageKind::Heading, span),
        }
    }

    pub(super) fn stray_title(&mut self, span: Span) {
        let diagnostic = stray_title(self.outline.title.as_ref(), first_line(self.text, span));
        self.diagnostics.push(diagnostic);
        let late = self.inline.finish();
        if self.outline.title.is_none() {
            self.outline.title = Some(Heading { text: late, span: first_line(self.text, span) });
        } else {
            self.keep(PassageKind::Heading, late, span);
        }
    }

    pub(super) fn start_part(&mut self, span: Span) {
        self.end_part();
        let text = self.inline.finish();
        self.begin_part(Some(Heading { text, span }), span);
    }

    pub(super) fn begin_part(&mut self, heading: Option<Heading>, span: Span) {
        let span = first_line(self.text, span);
        self.outline.parts.push(Part { heading, span, ..Part::default() });
    }

    /// Prose that no step followed stays with the section that ends here.
    pub(super) fn end_part(&mut self) {
        let waiting = std::mem::take(&mut self.waiting);
        match self.outline.parts.last_mut() {
            Some(part) => {
                part.after.extend(waiting);
                part.groups.shrink_to_fit();
            }
            None => self.outline.introduction.extend(waiting),
        }
    }

    pub(super) fn end_table(&mut self, span: Span) {
        let text = self.inline.finish();
        if self.innermost().is_some() || !text.iter().any(|piece| self.asks(piece)) {
            self.keep(PassageKind::Table, text, span);
            return;
        }
        if self.outline.parts.is_empty() {
            self.outline.introduction.append(&mut self.waiting);
            self.begin_part(None, span);
        }
        let id = self.add_step(first_line(self.text, span));
        let links = self.inline.finished_links();
        let pictures = self.inline.finished_pictures();
        if let Some(step) = self.outline.steps.last_mut() {
            step.text = text;
            step.links = links.into();
            step.passages.extend(pictures.into_iter().map(picture));
        }
        if let Some(part) = self.outline.parts.last_mut() {
            part.groups.push(Group { order: Order::InOrder, steps: vec![id] });
        }
    }

    pub(super) fn asks(&self, piece: &Piece) -> bool {
        matches!(piece, Piece::Mention(name) if (self.is_reading)(name.value.as_str()))
    }

    /// Puts the words read so far where they belong.
    pub(super) fn place(&mut self, kind: PassageKind, span: Span) {
        let text = self.inline.finish();
        self.keep(kind, text, span);
    }

    pub(super) fn keep(&mut self, kind: PassageKind, text: Vec<Piece>, span: Span) {
        let mut pictures = self.inline.finished_pictures();
        if text.is_empty() && pictures.is_empty() {
            return;
        }
        self.second_fence(kind, span);
        // A picture by itself is a passage; one within a sentence stands behind it as well.
        let alone = if kind == PassageKind::Image { pictures.pop() } else { None };
        let span = alone.as_ref().map_or(span, |picture| picture.span);
        let passage = Passage { kind, text, address: alone.map(|picture| picture.address), span };
        let links = self.inline.finished_links();
        let Some(step) = self.innermost_step() else {
            self.waiting.push(passage);
            self.waiting.extend(pictures.into_iter().map(picture));
            return;
        };
        if kind.asks() {
            step.links.extend(links);
        }
        let first = step.text.is_empty() && step.passages.is_empty() && step.groups.is_empty();
        let mut marker = None;
        if first && kind == PassageKind::Prose {
            step.text = passage.text;
            marker = task_marker(&mut step.text, step.span);
        } else {
            step.passages.push(passage);
        }
        step.passages.extend(pictures.into_iter().map(picture));
        self.outline.references.extend(marker);
    }

    pub(super) fn second_fence(&mut self, kind: PassageKind, span: Span) {
        let line = first_line(self.text, span);
        if kind == PassageKind::Prose && self.text.get(line.start..line.end) == Some("+++") {
            self.diagnostics.push(second_front_matter(line));
        }
    }
}

/// A picture within a sentence, as a passage of its own.
fn picture(WrittenPicture { words, address, span }: WrittenPicture) -> Passage {
    let text = if words.is_empty() { Vec::new() } else { vec![Piece::Text(words)] };
    Passage { kind: PassageKind::Image, text, address: Some(address), span }
}

/// Takes `[ ]` off the front of a step: a step has its own mark.
fn task_marker(text: &mut [Piece], step: Span) -> Option<Reference> {
    let Some(Piece::Text(words)) = text.first_mut() else {
        return None;
    };
    *words = words.strip_prefix("[ ]")?.trim_start().to_owned();
    Some(Reference { kind: ReferenceKind::TaskMarker, text: "[ ]".to_owned(), span: step })
}

/// A `#` heading after the title, or after the first section.
fn stray_title(first: Option<&Heading>, here: Span) -> Diagnostic {
    match first {
        Some(first) => Diagnostic::error(&TITLE_STRAY, "a procedure has one title")
            .at(here, "a second title")
            .also(first.span, "the title")
            .help("write `##` for a section, or put this into a file of its own"),
        None => Diagnostic::error(&TITLE_STRAY, "the title stands below the first section or step")
            .at(here, "it belongs right after the front matter")
            .help("move the `#` line up"),
    }
}
