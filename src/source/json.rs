//! Diagnostics as data for other programs.

use std::fmt::Write as _;

use serde::Serialize;

use super::clean::is_harmless;
use super::few::few;
use super::{Diagnostic, Severity, SourceText, Span};

/// A place: lines and columns from 1, columns in characters, the end one past the last character; and the same
/// in bytes from 0.
#[derive(Serialize)]
struct Place {
    line: usize,
    column: usize,
    end_line: usize,
    end_column: usize,
    start_byte: usize,
    end_byte: usize,
}

#[derive(Serialize)]
struct LabelForm<'a> {
    place: Place,
    text: &'a str,
    primary: bool,
}

#[derive(Serialize)]
struct FixForm<'a> {
    place: Place,
    text: &'a str,
}

#[derive(Serialize)]
struct DiagnosticForm<'a> {
    file: &'a str,
    place: Option<Place>,
    severity: &'static str,
    code: &'static str,
    message: &'a str,
    labels: Vec<LabelForm<'a>>,
    notes: &'a [String],
    help: Option<&'a str>,
    fix: Option<FixForm<'a>>,
}

/// The `diagnostics` of `text` as JSON Lines, of many the first hundred and a count: one object a line, in the order given, so that the output for
/// several files can simply be joined.
///
/// Members: `file`, `place` (of the mistake itself, or null: `line`, `column`, `end_line`, `end_column`,
/// `start_byte`, `end_byte`), `severity` (`error` or `warning`), `code`, `message`, `labels` (each `place`,
/// `text`, `primary`), `notes`, `help`, `fix` (`place` and the `text` to put there).
pub fn to_json(diagnostics: &[Diagnostic], text: &SourceText) -> String {
    let few = few(diagnostics);
    let lines = few.iter().map(|diagnostic| serde_json::to_string(&form(diagnostic, text)));
    lines.filter_map(Result::ok).map(|line| escaped(&line) + "\n").collect()
}

/// The same JSON with what could move the cursor, hide or reorder text written as `\u....`: it stands in strings only.
pub fn escaped(json: &str) -> String {
    let mut escaped = String::with_capacity(json.len());
    for character in json.chars() {
        if is_harmless(character) {
            escaped.push(character);
            continue;
        }
        for unit in character.encode_utf16(&mut [0; 2]) {
            let _ = write!(escaped, "\\u{unit:04x}");
        }
    }
    escaped
}

fn form<'a>(diagnostic: &'a Diagnostic, text: &'a SourceText) -> DiagnosticForm<'a> {
    DiagnosticForm {
        file: text.name(),
        place: diagnostic.place().map(|span| place(span, text)),
        severity: severity(diagnostic.severity),
        code: diagnostic.code.name,
        message: &diagnostic.message,
        labels: labels(diagnostic, text),
        notes: &diagnostic.notes,
        help: diagnostic.help.as_deref(),
        fix: diagnostic.fix.as_ref().map(|fix| FixForm { place: place(fix.span, text), text: &fix.text }),
    }
}

fn labels<'a>(diagnostic: &'a Diagnostic, text: &SourceText) -> Vec<LabelForm<'a>> {
    let labels = diagnostic.labels.iter().map(|label| LabelForm {
        place: place(label.span, text),
        text: &label.text,
        primary: label.primary,
    });
    labels.collect()
}

fn severity(severity: Severity) -> &'static str {
    match severity {
        Severity::Error => "error",
        Severity::Warning => "warning",
    }
}

fn place(span: Span, text: &SourceText) -> Place {
    let (start, end) = (text.position(span.start), text.position(span.end));
    Place {
        line: start.line,
        column: start.column,
        end_line: end.line,
        end_column: end.column,
        start_byte: span.start,
        end_byte: span.end,
    }
}
