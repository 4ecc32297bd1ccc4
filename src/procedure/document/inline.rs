//! The words of one block: markup taken off, mentions kept.

use pulldown_cmark::{Event, LinkType, Tag, TagEnd};

use super::outline::WrittenLink;
use super::references::{Reference, ReferenceKind};
use super::said::Said;
use super::step_numbers::StepNumbers;
use crate::procedure::{Name, Piece};
use crate::source::{Span, Spanned, clean};

/// Collects the words of the block that is being read.
#[derive(Debug, Default)]
pub(super) struct Inline {
    pieces: Vec<Piece>,
    open: Vec<Open>,
    images: usize,
    words_outside: bool,
    /// Brackets worth a second look.
    pub(super) references: Vec<Reference>,
    links: Vec<WrittenLink>,
    finished_links: Vec<WrittenLink>,
    pictures: Vec<WrittenPicture>,
    finished_pictures: Vec<WrittenPicture>,
    said: Said,
    /// Numbers of steps.
    pub(super) step_numbers: Vec<StepNumbers>,
}

/// A picture with an address, and what it shows.
#[derive(Clone, Debug)]
pub(super) struct WrittenPicture {
    pub(super) words: String,
    pub(super) address: String,
    pub(super) span: Span,
}

/// A link or an image that has begun.
#[derive(Debug)]
struct Open {
    kind: OpenKind,
    span: Span,
    /// What stood in front of it: its own words begin here.
    before: usize,
}

#[derive(Debug)]
enum OpenKind {
    Mention(Name),
    Link(String),
    /// A form of link that leads to no address.
    Dangling(String),
    Image(String),
}

impl Inline {
    /// Takes an event that belongs inside a block; whether it was one.
    pub(super) fn take(&mut self, event: &Event<'_>, span: Span) -> bool {
        match event {
            Event::Text(text) => {
                self.said.add(text, span);
                self.push(text);
            }
            Event::Code(text) | Event::Html(text) => {
                self.said.add("|", span);
                self.push(text);
            }
            Event::InlineHtml(html) if html.starts_with("<!--") => {}
            Event::InlineHtml(html) => self.push(html),
            Event::SoftBreak => {
                self.said.add(" ", span);
                self.push(" ");
            }
            Event::HardBreak => {
                self.said.add(" ", span);
                self.push("\n");
            }
            Event::Start(tag) => return self.start(tag, span),
            Event::End(end) => return self.end(*end),
            _ => return false,
        }
        true
    }

    fn start(&mut self, tag: &Tag<'_>, span: Span) -> bool {
        match tag {
            Tag::Emphasis | Tag::Strong => {}
            Tag::Link { link_type, dest_url, id, .. } => self.start_link(*link_type, dest_url, id, span),
            Tag::Image { link_type, dest_url, id, .. } => self.start_image(*link_type, dest_url, id, span),
            _ => return false,
        }
        true
    }

    fn start_link(&mut self, link_type: LinkType, address: &str, id: &str, span: Span) {
        let kind = match link_type {
            LinkType::ShortcutUnknown => OpenKind::Mention(Name::from(id)),
            LinkType::CollapsedUnknown => self.refer(ReferenceKind::Collapsed, id, span),
            LinkType::ReferenceUnknown => self.refer(ReferenceKind::Full, id, span),
            _ => OpenKind::Link(address.to_owned()),
        };
        self.open(kind, span);
    }

    fn refer(&mut self, kind: ReferenceKind, id: &str, span: Span) -> OpenKind {
        self.note(kind, id, span);
        OpenKind::Dangling(format!(" [{id}]"))
    }

    fn start_image(&mut self, link_type: LinkType, address: &str, id: &str, span: Span) {
        if matches!(
            link_type,
            LinkType::ShortcutUnknown | LinkType::CollapsedUnknown | LinkType::ReferenceUnknown
        ) {
            self.note(ReferenceKind::Image, id, span);
        }
        self.images += 1;
        self.open(OpenKind::Image(address.to_owned()), span);
    }

    fn open(&mut self, kind: OpenKind, span: Span) {
        let before = self.text_length();
        self.open.push(Open { kind, span, before });
    }

    fn end(&mut self, end: TagEnd) -> bool {
        match end {
            TagEnd::Emphasis | TagEnd::Strong => {}
            TagEnd::Link | TagEnd::Image => self.close(),
            _ => return false,
        }
        true
    }

    fn close(&mut self) {
        let Some(Open { kind, span, before }) = self.open.pop() else {
            return;
        };
        match kind {
            OpenKind::Mention(name) => {
                self.words_outside |= !self.inside_image();
                self.said.add("|", span);
                self.pieces.push(Piece::Mention(Spanned::new(name, span)));
            }
            OpenKind::Link(address) => self.close_link(&address, span, before),
            OpenKind::Dangling(name) => self.push(&name),
            OpenKind::Image(address) => self.close_image(address, span, before),
        }
    }

    /// The address of a link is kept: on paper nothing can be followed.
    fn close_link(&mut self, address: &str, span: Span, before: usize) {
        let words = self.words_since(before);
        self.note(ReferenceKind::Link, &words, span);
        self.links.push(WrittenLink { address: address.to_owned(), span });
        if !address.is_empty() && words != address && format!("mailto:{words}") != address {
            self.push(&format!(" ({address})"));
        }
    }

    fn close_image(&mut self, address: String, span: Span, before: usize) {
        let words = self.words_since(before);
        if words.is_empty() {
            self.note(ReferenceKind::SilentImage, "", span);
        }
        if !address.is_empty() {
            self.pictures.push(WrittenPicture { words, address, span });
        }
    }

    fn note(&mut self, kind: ReferenceKind, text: &str, span: Span) {
        let text = text.to_owned();
        self.references.push(Reference { kind, text, span });
    }

    fn push(&mut self, text: &str) {
        if matches!(self.open.last(), Some(Open { kind: OpenKind::Mention(_), .. })) {
            return;
        }
        self.words_outside |= !self.inside_image() && !text.trim().is_empty();
        let text = clean(text);
        match self.pieces.last_mut() {
            Some(Piece::Text(words)) => words.push_str(&text),
            _ => self.pieces.push(Piece::Text(text.into_owned())),
        }
    }

    fn inside_image(&self) -> bool {
        self.open.iter().any(|open| matches!(open.kind, OpenKind::Image(_)))
    }

    /// Starts a new line, where something stands already.
    pub(super) fn line(&mut self) {
        if !self.pieces.is_empty() {
            self.push("\n");
        }
    }

    /// Adds words of our own, such as the bar between two cells.
    pub(super) fn add(&mut self, text: &str) {
        self.push(text);
    }

    fn text_length(&self) -> usize {
        let length = |piece: &Piece| match piece {
            Piece::Text(text) => text.len(),
            Piece::Mention(name) => name.value.as_str().len(),
        };
        self.pieces.iter().map(length).sum()
    }

    fn words_since(&self, before: usize) -> String {
        let all: String = self.pieces.iter().map(words).collect();
        all.get(before..).unwrap_or_default().to_owned()
    }

    /// Whether nothing but an image was read.
    pub(super) const fn is_only_an_image(&self) -> bool {
        self.images == 1 && !self.words_outside
    }

    /// Whether nothing was read.
    pub(super) fn is_empty(&self) -> bool {
        self.pieces.iter().all(|piece| matches!(piece, Piece::Text(text) if text.trim().is_empty()))
    }

    /// What was read, trimmed; ready for the next block.
    pub(super) fn finish(&mut self) -> Vec<Piece> {
        self.step_numbers.extend(self.said.step_numbers());
        self.said.clear();
        self.images = 0;
        self.words_outside = false;
        self.open.clear();
        self.finished_links = std::mem::take(&mut self.links);
        self.finished_pictures = std::mem::take(&mut self.pictures);
        trim(&mut self.pieces);
        self.pieces.drain(..).collect()
    }

    /// What was read is shown as it stands and speaks of nothing in this file.
    pub(super) fn says_nothing(&mut self) {
        self.said.clear();
    }

    /// The links with an address in what was finished last.
    pub(super) fn finished_links(&mut self) -> Vec<WrittenLink> {
        std::mem::take(&mut self.finished_links)
    }

    /// The pictures in what was finished last.
    pub(super) fn finished_pictures(&mut self) -> Vec<WrittenPicture> {
        std::mem::take(&mut self.finished_pictures)
    }
}

fn words(piece: &Piece) -> &str {
    match piece {
        Piece::Text(text) => text,
        Piece::Mention(name) => name.value.as_str(),
    }
}

fn trim(pieces: &mut Vec<Piece>) {
    if let Some(Piece::Text(first)) = pieces.first_mut() {
        first.drain(..first.len() - first.trim_start_matches(['\n', ' ']).len());
    }
    if let Some(Piece::Text(last)) = pieces.last_mut() {
        last.truncate(last.trim_end().len());
    }
    pieces.retain(|piece| !matches!(piece, Piece::Text(text) if text.is_empty()));
}
