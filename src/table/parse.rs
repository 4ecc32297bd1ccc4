//! TOML read from a text; what is not TOML is reported line by line, and everything around it is read all the same.

use std::cell::OnceCell;
use std::collections::{BTreeMap, BTreeSet};

use toml::de::{DeTable, DeValue, Error};

use super::Scribe;
use super::codes::{TOML_DUPLICATE, TOML_SYNTAX};
use super::slips::Lines;
use crate::source::{Diagnostic, Span};

/// How often a text is read again without what a slip touched. One slip mostly costs one time, and so do thousands that
/// each stay in their line.
const MOST: usize = 20;

/// Reads the scribe's text as TOML, with the reasons noted where it is not: each slip touches its own line or table, which
/// is left out, and is noted as lost. Nothing comes out when nothing can be made of the text. The text without what was left
/// out is kept in `mended`.
///
/// One mistake is reported for each line: those that follow on the same line are its echo.
pub fn parse<'t>(scribe: &mut Scribe<'t>, mended: &'t OnceCell<String>) -> Option<DeTable<'t>> {
    let mut told = BTreeSet::new();
    let mut text = match read(scribe, scribe.text, &mut told) {
        Ok(table) => return Some(table),
        Err(mended) => mended,
    };
    for _ in 0..MOST {
        // What was read borrows its text: it is let go before it is read again out of what stays.
        let Err(next) = read(scribe, &text, &mut told).map(drop) else {
            let text = mended.get_or_init(|| text);
            return DeTable::parse(text).ok().map(toml::Spanned::into_inner);
        };
        text = next;
    }
    None
}

/// Reads a text, or notes its slips and gives it without them.
fn read<'t>(
    scribe: &mut Scribe<'_>,
    text: &'t str,
    told: &mut BTreeSet<usize>,
) -> Result<DeTable<'t>, String> {
    let (table, errors) = DeTable::parse_recoverable(text);
    if errors.is_empty() {
        Ok(table.into_inner())
    } else {
        Err(without_slips(scribe, text, table.get_ref(), &errors, told))
    }
}

/// Notes what is wrong with a text; gives the text with blanks in place of what the slips touched.
fn without_slips(
    scribe: &mut Scribe<'_>,
    text: &str,
    table: &DeTable<'_>,
    errors: &[Error],
    told: &mut BTreeSet<usize>,
) -> String {
    let lines = Lines::of(text);
    let mut keys = None;
    let mut errors: Vec<(&Error, Span)> = errors
        .iter()
        .map(|error| error.span().unwrap_or(text.len()..text.len()))
        .zip(errors)
        .map(|(span, error)| (error, Span::new(span.start, span.end)))
        .collect();
    errors.sort_by_key(|(_, span)| *span);
    let mut touched = Vec::new();
    for (error, span) in errors {
        if told.insert(lines.line_of(span.start)) {
            let diagnostic = if error.message().contains("duplicate key") {
                duplicate(span, keys.get_or_insert_with(|| Keys::of(table)), scribe)
            } else {
                syntax(error, span, scribe)
            };
            scribe.note(diagnostic);
        }
        let swallows = swallows(error);
        let at = begin(text, span.start, error);
        touched.push(lines.touched(at, swallows, &mut scribe.lost));
        // What follows is the echo of something that was not closed.
        if swallows {
            break;
        }
    }
    blanked(text, &touched)
}

/// Whether a slip takes what follows it along: an open list or text goes on over any number of lines.
fn swallows(error: &Error) -> bool {
    ["array", "multi-line", "inline table"].iter().any(|what| error.message().contains(what))
}

/// Where a slip began: an open text of several lines is only missed at its end.
fn begin(text: &str, at: usize, error: &Error) -> usize {
    if !error.message().contains("multi-line") {
        return at;
    }
    let before = text.get(..at).unwrap_or_default();
    before.rfind("\"\"\"").max(before.rfind("'''")).unwrap_or(at)
}

fn blanked(text: &str, touched: &[std::ops::Range<usize>]) -> String {
    let mut bytes = text.as_bytes().to_vec();
    for range in touched {
        for byte in bytes.get_mut(range.clone()).into_iter().flatten().filter(|byte| **byte != b'\n') {
            *byte = b' ';
        }
    }
    String::from_utf8(bytes).unwrap_or_default()
}

fn syntax(error: &Error, span: Span, scribe: &Scribe<'_>) -> Diagnostic {
    Diagnostic::error(&TOML_SYNTAX, "this is not TOML")
        .at(span.shifted(scribe.base), error.message())
        .help("a line is `key = \"text\"`, `key = 5`, `key = [\"one\", \"two\"]` or `[table.name]`")
}

fn duplicate(span: Span, keys: &Keys, scribe: &Scribe<'_>) -> Diagnostic {
    let here = span.shifted(scribe.base);
    let key = scribe.raw(here).trim_matches(['"', '\'']);
    let diagnostic =
        Diagnostic::error(&TOML_DUPLICATE, format!("`{key}` is written twice in the same table"));
    let diagnostic =
        diagnostic.at(here, "written again here").help("keep one of them, or give this one another name");
    match keys.last_before(key, span.start) {
        Some(first) => diagnostic.also(first.shifted(scribe.base), "first written here"),
        None => diagnostic,
    }
}

/// Where each key stands, in the order of the text.
struct Keys(BTreeMap<String, Vec<Span>>);

impl Keys {
    fn of(table: &DeTable<'_>) -> Self {
        let mut keys: BTreeMap<String, Vec<Span>> = BTreeMap::new();
        let mut open = vec![table];
        while let Some(table) = open.pop() {
            for (name, value) in table {
                let span = name.span();
                keys.entry(name.get_ref().to_string()).or_default().push(Span::new(span.start, span.end));
                if let DeValue::Table(inner) = value.get_ref() {
                    open.push(inner);
                }
            }
        }
        for places in keys.values_mut() {
            places.sort_unstable();
        }
        Self(keys)
    }

    /// The nearest key of that name above `limit`: in practice the one that was repeated.
    fn last_before(&self, key: &str, limit: usize) -> Option<Span> {
        let places = self.0.get(key)?;
        let before = places.partition_point(|place| place.end <= limit).checked_sub(1)?;
        places.get(before).copied()
    }
}
