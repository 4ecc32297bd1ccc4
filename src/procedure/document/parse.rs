//! The body, read: Markdown's events, one after the other, put into an outline.

use pulldown_cmark::{BrokenLinkCallback, Options, Parser};

use super::build::Builder;
use super::outline::Outline;
use super::references::{Listener, Reference, ReferenceKind};
use crate::source::{Diagnostic, Found, Span};

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
    outline.steps.shrink_to_fit();
    outline.parts.shrink_to_fit();
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
