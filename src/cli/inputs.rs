//! Reading what a person names on the command line, with everything that is wrong with it.

use std::path::Path;

use super::Exit;
use super::context::Context;
use super::pictures::is_there;
use crate::job::{handed_on, sheet_with};
use crate::procedure::{self, CheckedProcedure, Library, LinkedText, NotFound, check_sheet};
use crate::run::Book;
use crate::session::StoredRun;
use crate::source::{Diagnostic, Severity, SourceText};
use crate::vehicle::{self, Sheet};

/// A text and what was made of it.
pub(super) struct Input<T> {
    pub(super) text: SourceText,
    pub(super) value: Option<T>,
    pub(super) diagnostics: Vec<Diagnostic>,
}

/// A procedure from a file, with what is wrong with those that it links to.
pub(super) struct ProcedureInput {
    pub(super) own: Input<CheckedProcedure>,
    pub(super) linked: Vec<LinkedText>,
}

impl ProcedureInput {
    /// Shows the errors in its text and in those that it links to.
    pub(super) fn diagnose(&self, context: &Context) {
        context.diagnose(&errors(&self.own.diagnostics), &self.own.text);
        for linked in &self.linked {
            context.diagnose(&errors(&linked.diagnostics), &linked.text);
        }
    }
}

/// A procedure from a file.
pub(super) fn procedure(context: &Context, path: &Path) -> Result<ProcedureInput, Exit> {
    Ok(procedure_of(context, path, context.read(path)?))
}

/// A procedure from the text of its file.
pub(super) fn procedure_of(context: &Context, path: &Path, text: SourceText) -> ProcedureInput {
    let found = procedure::read_linked(&text, &id(path), &Beside { context, path });
    let own = Input { text, value: found.value, diagnostics: found.diagnostics };
    ProcedureInput { own, linked: found.linked }
}

/// The files beside a procedure.
pub(super) struct Beside<'c> {
    pub(super) context: &'c Context,
    /// The procedure.
    pub(super) path: &'c Path,
}

impl Library for Beside<'_> {
    fn find(&self, address: &str) -> Result<SourceText, NotFound> {
        let folder = self.path.parent().unwrap_or(Path::new(""));
        let text = self.context.read_text(&folder.join(address));
        text.map_err(|error| NotFound { why: error.to_string() })
    }

    fn picture(&self, address: &str) -> Result<(), NotFound> {
        let folder = self.path.parent().unwrap_or(Path::new(""));
        is_there(self.context, &folder.join(address))
    }
}

/// A vehicle sheet from a file.
pub(super) fn sheet(context: &Context, path: &Path) -> Result<Input<Sheet>, Exit> {
    let text = context.read(path)?;
    let found = vehicle::read(&text);
    Ok(Input { text, value: found.value, diagnostics: found.diagnostics })
}

/// What a new run goes by, with the text of its vehicle sheet.
pub(super) fn book(
    context: &Context,
    procedure_path: &Path,
    sheet_path: Option<&Path>,
) -> Result<(Book, Option<SourceText>), Exit> {
    book_in_job(context, procedure_path, sheet_path, &[])
}

/// The same with what the runs of its job hand on to it.
pub(super) fn book_in_job(
    context: &Context,
    procedure_path: &Path,
    sheet_path: Option<&Path>,
    runs: &[StoredRun],
) -> Result<(Book, Option<SourceText>), Exit> {
    let input = procedure(context, procedure_path)?;
    let Some(procedure) = input.own.value.clone() else {
        input.diagnose(context);
        return Err(Exit::Found);
    };
    let Some(sheet_path) = sheet_path else {
        return Ok((Book::new(procedure, None), None));
    };
    let input = sheet(context, sheet_path)?;
    let own = sound(context, input.value, &input.diagnostics, &input.text)?;
    let handed = handed_on(&procedure, runs);
    let (sheet, text) = if handed.is_empty() {
        (own, input.text)
    } else {
        let text = sheet_with(&input.text, &handed);
        (sound(context, vehicle::read(&text).value, &[], &text)?, text)
    };
    let against = check_sheet(&procedure, &sheet);
    let sheet = sound(context, Some(sheet), &against, &text)?;
    Ok((Book::new(procedure, Some(sheet)), Some(text)))
}

/// The value, if there is no error; the errors are shown, doubts are left to `check`.
fn sound<T>(
    context: &Context,
    value: Option<T>,
    diagnostics: &[Diagnostic],
    text: &SourceText,
) -> Result<T, Exit> {
    let errors = errors(diagnostics);
    match value {
        Some(value) if errors.is_empty() => Ok(value),
        _ => {
            context.diagnose(&errors, text);
            Err(Exit::Found)
        }
    }
}

fn errors(diagnostics: &[Diagnostic]) -> Vec<Diagnostic> {
    diagnostics.iter().filter(|found| found.severity == Severity::Error).cloned().collect()
}

/// So many of them: `1 error`, `3 errors`.
pub(super) fn counted(count: usize, what: &str) -> String {
    format!("{count} {what}{}", if count == 1 { "" } else { "s" })
}

/// The name of a procedure: its file's name without the ending.
pub(super) fn id(path: &Path) -> String {
    path.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default()
}
