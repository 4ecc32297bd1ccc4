//! Lists, their items, and quotes.

use super::build::{Builder, Open, first_line};
use super::outline::Written;
use crate::procedure::{Group, Order, PassageKind, Rare, StepId};
use crate::source::Span;

impl Builder<'_> {
    /// The words of a tight list item have no paragraph around them: they end where the next block begins.
    pub(super) fn flush_tight(&mut self, next: Span) {
        if self.quote.is_none() && !self.inline.is_empty() && matches!(self.open.last(), Some(Open::Item(_)))
        {
            self.place(PassageKind::Prose, Span::new(next.start, next.start));
        }
    }

    pub(super) fn start_list(&mut self, first: Option<u64>, span: Span) {
        if self.outline.parts.is_empty() {
            self.outline.introduction.append(&mut self.waiting);
            self.begin_part(None, span);
        }
        let order = if first.is_some() { Order::InOrder } else { Order::AnyOrder };
        self.open.push(Open::List(Group { order, steps: Vec::new() }));
    }

    pub(super) fn end_list(&mut self) {
        let Some(Open::List(mut group)) = self.open.pop() else {
            return;
        };
        group.steps.shrink_to_fit();
        if let Some(step) = self.innermost_step() {
            step.groups.push(group);
        } else if let Some(part) = self.outline.parts.last_mut() {
            part.groups.push(group);
        }
    }

    pub(super) fn start_step(&mut self, span: Span) {
        let id = self.add_step(first_line(self.text, span));
        if let Some(Open::List(group)) = self.open.last_mut() {
            group.steps.push(id);
        }
        self.open.push(Open::Item(id));
    }

    pub(super) fn add_step(&mut self, span: Span) -> StepId {
        let parent = self.innermost();
        let before =
            if parent.is_none() { std::mem::take(&mut self.waiting).into() } else { Rare::default() };
        let id = StepId(self.outline.steps.len());
        self.outline.steps.push(Written {
            section: self.outline.parts.len().saturating_sub(1),
            parent,
            before,
            text: Vec::new(),
            links: Rare::default(),
            passages: Rare::default(),
            groups: Rare::default(),
            typed: typed_number(self.text, span),
            span,
        });
        id
    }

    pub(super) fn end_item(&mut self, span: Span) {
        if self.quote.is_none() {
            self.flush_tight(Span::new(span.end, span.end));
            self.open.pop();
        }
    }

    pub(super) fn innermost(&self) -> Option<StepId> {
        let item = |open: &Open| match open {
            Open::Item(id) => Some(*id),
            _ => None,
        };
        self.open.iter().rev().find_map(item)
    }

    pub(super) fn innermost_step(&mut self) -> Option<&mut Written> {
        let id = self.innermost()?;
        self.outline.steps.get_mut(id.0)
    }

    pub(super) fn start_quote(&mut self, span: Span) {
        self.quote.get_or_insert(span);
        self.open.push(Open::Quote);
    }

    pub(super) fn end_quote(&mut self) {
        self.open.pop();
        if !self.open.iter().any(|open| matches!(open, Open::Quote))
            && let Some(span) = self.quote.take()
        {
            self.place(PassageKind::Note, span);
        }
    }

    pub(super) fn start_quoted_item(&mut self) {
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
}

/// The number that a list item begins with; none of a bullet.
fn typed_number(text: &str, item: Span) -> Option<u64> {
    let words = text.get(item.start..item.end)?.trim_start();
    let digits = words.len() - words.trim_start_matches(|letter: char| letter.is_ascii_digit()).len();
    words.get(digits..)?.starts_with(['.', ')']).then(|| words.get(..digits)?.parse().ok()).flatten()
}
