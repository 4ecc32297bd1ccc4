//! A result of a procedure of the same job, as texts speak of it: `drained in battery-drain-exhaust`.

use std::fmt;

use crate::procedure::link::all_fields;
use crate::source::{Code, Diagnostic, Spanned};
use crate::table::{Fields, is_name};

/// A result that comes from nowhere.
pub static RESULT_OF_WRONG: Code = Code {
    name: "result-of-wrong",
    summary: "it is not said which result of which procedure is meant",
    teaching: "\
In a job a value can be handed on from an earlier procedure, and a balance sums what several have found. Each is
named by its name there and that procedure's file without the ending. It comes with its run, entry and time.

Wrong: `handed_on = \"drained\"`

Right: `handed_on = \"drained in battery-drain-exhaust\"`
",
};

/// A result of a procedure of the same job.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ResultOf {
    /// The reading, the computed value or the vehicle value; of a protection its hold point.
    pub result: String,
    /// The procedure, by its file's name without the ending.
    pub procedure: String,
}

impl ResultOf {
    /// Reads it from a text under a key of these fields; where it is none, that is noted.
    pub fn read(fields: &mut Fields<'_, '_, '_>, written: &Spanned<String>) -> Option<Self> {
        let parts = written.value.split_once(" in ");
        let parts = parts.map(|(result, procedure)| (result.trim(), procedure.trim()));
        let is_sound = |(result, procedure): &(&str, &str)| {
            is_name(result) && !procedure.is_empty() && !procedure.contains(' ')
        };
        let Some((result, procedure)) = parts.filter(is_sound) else {
            let headline = format!("{} does not say what of which procedure it means", fields.owner());
            let diagnostic = Diagnostic::error(&RESULT_OF_WRONG, headline);
            let diagnostic = diagnostic.at(written.span, "not a name in a procedure");
            let help = "write its name there and the procedure's file: `drained in battery-drain-exhaust`";
            fields.scribe.note(diagnostic.help(help));
            return None;
        };
        Some(Self { result: result.to_owned(), procedure: procedure.to_owned() })
    }
}

impl fmt::Display for ResultOf {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{} in {}", self.result, self.procedure)
    }
}

all_fields! { ResultOf { result, procedure } }
