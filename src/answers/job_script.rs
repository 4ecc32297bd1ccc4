//! Answers for a whole job: its runs one after the other, each with a file of answers of its own.

use std::cell::OnceCell;
use std::path::PathBuf;

use toml::de::DeValue;

use super::meant::stands_in;
use crate::source::{Diagnostic, Severity, Span};
use crate::table::{Fields, Scribe, format, parse};

/// How one of its runs is written.
const EXAMPLE: &str = "[{ procedure = \"drain\", answers = \"drain.toml\" }]";

/// A file of answers for a job.
#[derive(Clone, Debug)]
pub struct JobScript {
    /// Its runs, in order.
    pub runs: Vec<RunScript>,
}

/// The answers for one run of a job.
#[derive(Clone, Debug)]
pub struct RunScript {
    /// The procedure, by its file's name without the ending.
    pub procedure: String,
    /// The file of its answers.
    pub answers: PathBuf,
}

impl JobScript {
    /// Whether a TOML text is meant as one: the key or the tables of runs stand in it.
    pub fn is_one(text: &str) -> bool {
        stands_in(text, "runs")
    }

    /// Reads one; all its mistakes at once where it has any.
    ///
    /// ```
    /// use bayhand::answers::JobScript;
    ///
    /// let read = JobScript::read("format = 1\n[[runs]]\nprocedure = \"drain\"\nanswers = \"drain.toml\"\n");
    /// assert_eq!(read.unwrap().runs[0].procedure, "drain");
    /// ```
    pub fn read(text: &str) -> Result<Self, Vec<Diagnostic>> {
        let mut scribe = Scribe::new(text, 0);
        let mended = OnceCell::new();
        let runs = parse(&mut scribe, &mended).and_then(|table| {
            let what = "the file of answers for a job";
            let mut fields = Fields::new(&table, what, Span::new(0, 0), &mut scribe).whole();
            format(&mut fields);
            let runs = runs(&mut fields);
            fields.finish();
            runs
        });
        let mut mistakes = scribe.diagnostics;
        mistakes.retain(|said| said.severity == Severity::Error);
        mistakes.sort_by_key(Diagnostic::place);
        runs.filter(|_| mistakes.is_empty()).map(|runs| Self { runs }).ok_or(mistakes)
    }
}

fn runs(fields: &mut Fields<'_, '_, '_>) -> Option<Vec<RunScript>> {
    let Some(item) = fields.item("runs") else {
        fields.missing("runs", EXAMPLE);
        return None;
    };
    let DeValue::Array(rows) = item.value else {
        fields.wrong_type("runs", item, &format!("a list of runs, `{EXAMPLE}`"));
        return None;
    };
    let mut runs = Vec::new();
    for (row, number) in rows.iter().zip(1..) {
        let span = fields.scribe.span(&row.span());
        let DeValue::Table(table) = row.get_ref() else {
            let item = crate::table::Item { key: item.key, value: row.get_ref(), span };
            fields.wrong_type("runs", item, &format!("a table, `{EXAMPLE}`"));
            continue;
        };
        let mut own = Fields::new(table, format!("run {number}"), span, fields.scribe);
        let procedure = own.need_text("procedure", "\"drain\"");
        let answers = own.need_text("answers", "\"drain.toml\"");
        own.finish();
        runs.extend(procedure.zip(answers).map(|(procedure, answers)| RunScript {
            procedure: procedure.value,
            answers: answers.value.into(),
        }));
    }
    Some(runs)
}
