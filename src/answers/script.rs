//! Answers from a file: the same machine without a person at a terminal.

use std::cell::OnceCell;

use jiff::{SignedDuration, ZonedDateTime};
use toml::de::DeValue;

use crate::answers::job_script::JobScript;
use crate::answers::line::Line;
use crate::answers::meant::stands_in;
use crate::answers::times::{clock, pace};
use crate::source::{Diagnostic, Severity, Span};
use crate::table::{Fields, Item, Scribe, format, parse};

/// A file of answers.
#[derive(Clone, Debug)]
pub struct Script {
    /// When it begins.
    pub clock: ZonedDateTime,
    /// The time from one answer to the next, where an answer does not say otherwise.
    pub pace: SignedDuration,
    /// The answers, in order.
    pub lines: Vec<(Line, Span)>,
}

impl Script {
    /// Whether a TOML text is meant as a file of answers: the key or the tables of answers stand in it.
    pub fn is_one(text: &str) -> bool {
        stands_in(text, "answers") && !JobScript::is_one(text)
    }

    /// Reads a file of answers; all its mistakes at once where it has any.
    pub fn read(text: &str) -> Result<Self, Vec<Diagnostic>> {
        let mut scribe = Scribe::new(text, 0);
        let mended = OnceCell::new();
        let script = parse(&mut scribe, &mended).and_then(|table| {
            let mut fields = Fields::new(&table, "the file of answers", Span::new(0, 0), &mut scribe).whole();
            let script = script(&mut fields);
            fields.finish();
            script
        });
        let mut mistakes = scribe.diagnostics;
        mistakes.retain(|said| said.severity == Severity::Error);
        mistakes.sort_by_key(Diagnostic::place);
        script.filter(|_| mistakes.is_empty()).ok_or(mistakes)
    }
}

fn script(fields: &mut Fields<'_, '_, '_>) -> Option<Script> {
    /// The time from one answer to the next, where the file does not say it.
    const PACE: SignedDuration = SignedDuration::from_secs(20);
    format(fields);
    let clock = clock(fields);
    let pace = pace(fields);
    let lines = lines(fields)?;
    Some(Script { clock: clock?, pace: pace.unwrap_or(PACE), lines })
}

/// The answers, each with its place.
fn lines(fields: &mut Fields<'_, '_, '_>) -> Option<Vec<(Line, Span)>> {
    let Some(item) = fields.item("answers") else {
        fields.missing("answers", "[{ at = \"1.1\", do = \"done\" }]");
        return None;
    };
    let DeValue::Array(rows) = item.value else {
        fields.wrong_type("answers", item, "a list of answers, `[{ at = \"1.1\", do = \"done\" }]`");
        return None;
    };
    let mut lines = Vec::new();
    for (row, number) in rows.iter().zip(1..) {
        let span = fields.scribe.span(&row.span());
        let DeValue::Table(table) = row.get_ref() else {
            let item = Item { key: item.key, value: row.get_ref(), span };
            fields.wrong_type("answers", item, "a table, `{ at = \"1.1\", do = \"done\" }`");
            continue;
        };
        let mut own = Fields::new(table, format!("answer {number}"), span, fields.scribe);
        let line = Line::read(&mut own);
        own.finish();
        lines.push((line, span));
    }
    Some(lines)
}
