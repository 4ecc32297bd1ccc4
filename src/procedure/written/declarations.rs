//! The front matter as a whole.

use std::cell::OnceCell;

use toml::de::{DeTable, DeValue};

use crate::procedure::Declarations;
use crate::procedure::Loss;
use crate::procedure::document::{StepNumbers, step_numbers};
use crate::source::{Found, Span};
use crate::table::{Fields, Scribe, parse};

/// Reads the front matter at `front` of `text`; nothing when it is not TOML.
pub fn read(text: &str, front: Span) -> Found<Option<Declarations>> {
    let toml = text.get(front.start..front.end).unwrap_or_default();
    let mut scribe = Scribe::new(toml, front.start);
    let mended = OnceCell::new();
    let Some(table) = parse(&mut scribe, &mended) else {
        return Found { value: None, diagnostics: scribe.diagnostics };
    };
    let place = fence(text, front);
    let mut fields = Fields::new(&table, "the front matter", place, &mut scribe).whole();
    let mut declarations = Declarations::read(&mut fields);
    fields.finish();
    declarations.step_numbers = in_texts(&table, &scribe);
    declarations.loss = match &scribe.lost {
        lost if lost.is_nothing() => Loss::Nothing,
        lost if lost.is_unnamed() => Loss::Names,
        _ => Loss::Things,
    };
    Found { value: Some(declarations), diagnostics: scribe.diagnostics }
}

/// The numbers of steps that the texts of a table speak of, however deep.
fn in_texts(table: &DeTable<'_>, scribe: &Scribe<'_>) -> Vec<StepNumbers> {
    let mut waiting: Vec<&toml::Spanned<DeValue<'_>>> = table.values().collect();
    let mut found = Vec::new();
    while let Some(value) = waiting.pop() {
        match value.get_ref() {
            DeValue::String(_) => {
                let span = scribe.span(&value.span());
                found.extend(
                    step_numbers(scribe.raw(span)).into_iter().map(|number| number.shifted(span.start)),
                );
            }
            DeValue::Array(items) => waiting.extend(items.iter()),
            DeValue::Table(inner) => waiting.extend(inner.values()),
            _ => {}
        }
    }
    found
}

/// The `+++` line above the front matter: where messages about all of it point.
fn fence(text: &str, front: Span) -> Span {
    let start = text.get(..front.start).and_then(|before| before.rfind("+++"));
    start.map_or(Span::new(front.start, front.start), |start| Span::new(start, start + 3))
}
