//! TOML read from a text; what is not TOML is reported line by line.

use toml::de::{DeTable, DeValue, Error};

use super::Scribe;
use super::codes::{TOML_DUPLICATE, TOML_SYNTAX};
use crate::source::{Diagnostic, Span};

/// Reads the scribe's text as TOML; nothing when it is not TOML, with the reasons noted.
///
/// One mistake is reported for each line: those that follow on the same line are its echo.
pub fn parse<'t>(scribe: &mut Scribe<'t>) -> Option<DeTable<'t>> {
    let (table, errors) = DeTable::parse_recoverable(scribe.text);
    let table = table.into_inner();
    if errors.is_empty() {
        return Some(table);
    }
    let mut lines = Vec::new();
    for error in errors {
        let range = error.span().unwrap_or(scribe.text.len()..scribe.text.len());
        let line = line_of(scribe.text, range.start);
        if !lines.contains(&line) {
            lines.push(line);
            let span = scribe.span(&range);
            let diagnostic = describe(&error, span, &table, scribe);
            scribe.note(diagnostic);
        }
    }
    None
}

fn line_of(text: &str, offset: usize) -> usize {
    text.bytes().take(offset).filter(|&byte| byte == b'\n').count()
}

fn describe(error: &Error, span: Span, table: &DeTable<'_>, scribe: &Scribe<'_>) -> Diagnostic {
    if error.message().contains("duplicate key") {
        return duplicate(span, table, scribe);
    }
    let diagnostic = Diagnostic::error(&TOML_SYNTAX, "this is not TOML");
    diagnostic
        .at(span, error.message())
        .help("a line is `key = \"text\"`, `key = 5`, `key = [\"one\", \"two\"]` or `[table.name]`")
}

fn duplicate(span: Span, table: &DeTable<'_>, scribe: &Scribe<'_>) -> Diagnostic {
    let key = scribe.raw(span).trim_matches(['"', '\'']);
    let diagnostic =
        Diagnostic::error(&TOML_DUPLICATE, format!("`{key}` is written twice in the same table"));
    let diagnostic =
        diagnostic.at(span, "written again here").help("keep one of them, or give this one another name");
    match last_before(table, key, span.start - scribe.base) {
        Some(first) => diagnostic.also(first.shifted(scribe.base), "first written here"),
        None => diagnostic,
    }
}

/// The nearest key of that name above `limit`: in practice the one that was repeated.
fn last_before(table: &DeTable<'_>, key: &str, limit: usize) -> Option<Span> {
    let mut best = None;
    let mut open = vec![table];
    while let Some(table) = open.pop() {
        for (name, value) in table {
            let span = name.span();
            if name.get_ref() == key && span.end <= limit {
                best = best.max(Some(Span::new(span.start, span.end)));
            }
            if let DeValue::Table(inner) = value.get_ref() {
                open.push(inner);
            }
        }
    }
    best
}
