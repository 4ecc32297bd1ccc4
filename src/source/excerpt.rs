//! The lines that a diagnostic speaks of, clipped so that they fit the screen.

use std::ops::Range;

use super::clean::{is_harmless, shown_as};
use super::{SourceText, Span};

/// What stands for text that was left out.
const GAP: &str = " … ";

/// The lines from the first label to the last. In a line that is too long, what lies far from every label is
/// replaced by [`GAP`].
pub(super) struct Excerpt {
    /// The lines, ready to be shown.
    pub(super) text: String,
    /// The number of the first of them, from 1.
    pub(super) first_line: usize,
    /// Whether anything was left out.
    pub(super) clipped: bool,
    /// What was kept: where it stands in the file, and where in `text`.
    kept: Vec<(Span, usize)>,
    end: usize,
}

impl Excerpt {
    /// The excerpt of `text` that shows all of `spans` in `columns` columns.
    pub(super) fn around(text: &SourceText, spans: &[Span], columns: usize) -> Self {
        let spans: Vec<Span> = spans.iter().map(|&span| fitted(text.text(), span)).collect();
        let start = spans.iter().map(|span| span.start).min().unwrap_or(0);
        let end = spans.iter().map(|span| span.end).max().unwrap_or(0);
        let lines = whole_lines(text.text(), Span::new(start, end));
        let mut excerpt = Self {
            text: String::new(),
            first_line: text.position(lines.start).line,
            clipped: false,
            kept: Vec::new(),
            end: lines.end,
        };
        let near = near(text, &spans);
        let mut at = lines.start;
        for line in text.slice(lines).split_inclusive('\n') {
            let span = Span::new(at, at + line.len());
            at = span.end;
            if near.iter().any(|near| near.start < span.end && span.start < near.end) {
                excerpt.add_line(text.text(), span, &anchors(&spans, span), columns);
            } else if line.ends_with('\n') {
                // Nothing of it is shown: between labels that are far apart stand three points.
                excerpt.text.push('\n');
            }
        }
        excerpt
    }

    fn add_line(&mut self, text: &str, line: Span, anchors: &[usize], columns: usize) {
        let pieces =
            if line.end - line.start <= columns { vec![line] } else { windows(text, line, anchors, columns) };
        let mut at = line.start;
        for piece in &pieces {
            self.leave_out(text.get(at..piece.start).unwrap_or_default());
            self.keep(text, *piece);
            at = piece.end;
        }
        self.leave_out(text.get(at..line.end).unwrap_or_default());
    }

    /// Keeps a piece as it may be shown. What is replaced by something of another length is a piece by itself, so that
    /// labels still point at the right place.
    fn keep(&mut self, text: &str, piece: Span) {
        let words = text.get(piece.start..piece.end).unwrap_or_default();
        let mut at = piece.start;
        for run in words.split_inclusive(is_replaced) {
            let plain = run.trim_end_matches(is_replaced);
            self.kept.push((Span::new(at, at + plain.len()), self.text.len()));
            self.text.push_str(plain);
            at += plain.len();
            for character in run[plain.len()..].chars() {
                self.kept.push((Span::new(at, at + character.len_utf8()), self.text.len()));
                self.text.push(shown_as(character));
                at += character.len_utf8();
            }
        }
    }

    fn leave_out(&mut self, left_out: &str) {
        if !left_out.trim().is_empty() {
            self.text.push_str(GAP);
            self.clipped = true;
        }
        if left_out.ends_with('\n') {
            self.text.push('\n');
        }
    }

    /// Where `span` of the file stands in the excerpt.
    pub(super) fn place(&self, span: Span) -> Range<usize> {
        let start = self.offset(span.start.min(self.end));
        let end = self.offset(span.end.min(self.end));
        let range = start.min(end)..end.max(start);
        boundary(&self.text, range.start)..boundary(&self.text, range.end)
    }

    fn offset(&self, at: usize) -> usize {
        let piece = self.kept.iter().rev().find(|(piece, _)| piece.start <= at);
        piece.map_or(0, |(piece, shown)| shown + at.min(piece.end) - piece.start)
    }
}

/// Whether a character is shown as another one. A carriage return is left to the renderer: it knows line ends.
fn is_replaced(character: char) -> bool {
    character != '\r' && !is_harmless(character)
}

/// `span`, moved so that it lies in `text` and cuts no character.
fn fitted(text: &str, span: Span) -> Span {
    let start = boundary(text, span.start);
    Span::new(start, boundary(text, span.end).max(start))
}

fn boundary(text: &str, at: usize) -> usize {
    let mut at = at.min(text.len());
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    at
}

/// What may be shown: the lines that a label begins or ends in, and a few around them.
fn near(text: &SourceText, spans: &[Span]) -> Vec<Span> {
    let around = |at: usize| text.lines_around(at, 4);
    spans.iter().flat_map(|span| [around(span.start), around(span.end)]).collect()
}

fn whole_lines(text: &str, span: Span) -> Span {
    let start = text[..span.start].rfind('\n').map_or(0, |newline| newline + 1);
    let end = text[span.end..].find('\n').map_or(text.len(), |newline| span.end + newline + 1);
    Span::new(start, end)
}

/// The offsets in `line` that must stay visible: both ends of each span, in order.
fn anchors(spans: &[Span], line: Span) -> Vec<usize> {
    let ends = spans.iter().flat_map(|span| [span.start, span.end]);
    let mut anchors: Vec<usize> =
        ends.filter(|&end| line.start <= end && end < line.end.max(line.start + 1)).collect();
    anchors.sort_unstable();
    anchors.dedup();
    anchors
}

/// The parts of a long line that are kept: a window around each anchor, joined where they meet.
fn windows(text: &str, line: Span, anchors: &[usize], columns: usize) -> Vec<Span> {
    let first = [line.start];
    let anchors = if anchors.is_empty() { &first[..] } else { anchors };
    let reach = (columns / (2 * anchors.len() + 2)).max(6);
    let mut windows: Vec<Span> = Vec::new();
    for &anchor in anchors {
        let start = boundary(text, anchor.saturating_sub(reach)).max(line.start);
        let end = boundary(text, anchor + reach).min(line.end);
        match windows.last_mut() {
            Some(last) if start <= last.end + GAP.len() => last.end = end,
            _ => windows.push(Span::new(start, end)),
        }
    }
    windows
}
