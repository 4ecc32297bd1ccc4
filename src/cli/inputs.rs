//! Reading what a person names on the command line, with everything that is wrong with it.

use std::path::Path;

use super::Exit;
use super::context::Context;
use crate::procedure::{self, CheckedProcedure, check_sheet};
use crate::run::Book;
use crate::source::{Diagnostic, Severity, SourceText};
use crate::vehicle::{self, Sheet};

/// A text and what was made of it.
pub(super) struct Input<T> {
    pub(super) text: SourceText,
    pub(super) value: Option<T>,
    pub(super) diagnostics: Vec<Diagnostic>,
}

/// A procedure from a file.
pub(super) fn procedure(context: &Context, path: &Path) -> Result<Input<CheckedProcedure>, Exit> {
    let text = context.read(path)?;
    let found = procedure::read(&text, &id(path));
    Ok(Input { text, value: found.value, diagnostics: found.diagnostics })
}

/// A vehicle sheet from a file.
pub(super) fn sheet(context: &Context, path: &Path) -> Result<Input<Sheet>, Exit> {
    let text = context.read(path)?;
    let found = vehicle::read(&text);
    Ok(Input { text, value: found.value, diagnostics: found.diagnostics })
}

/// What a new run goes by, with the texts to pin.
pub(super) fn book(
    context: &Context,
    procedure_path: &Path,
    sheet_path: Option<&Path>,
) -> Result<(Book, SourceText, Option<SourceText>), Exit> {
    let procedure_input = procedure(context, procedure_path)?;
    let procedure =
        sound(context, procedure_input.value, &procedure_input.diagnostics, &procedure_input.text)?;
    let Some(sheet_path) = sheet_path else {
        return Ok((Book { procedure, sheet: None }, procedure_input.text, None));
    };
    let input = sheet(context, sheet_path)?;
    let sheet = sound(context, input.value, &input.diagnostics, &input.text)?;
    let against = check_sheet(&procedure, &sheet);
    let sheet = sound(context, Some(sheet), &against, &input.text)?;
    Ok((Book { procedure, sheet: Some(sheet) }, procedure_input.text, Some(input.text)))
}

/// The value, if there is no error; the errors are shown, doubts are left to `check`.
fn sound<T>(
    context: &Context,
    value: Option<T>,
    diagnostics: &[Diagnostic],
    text: &SourceText,
) -> Result<T, Exit> {
    let errors: Vec<Diagnostic> =
        diagnostics.iter().filter(|found| found.severity == Severity::Error).cloned().collect();
    match value {
        Some(value) if errors.is_empty() => Ok(value),
        _ => {
            context.diagnose(&errors, text);
            Err(Exit::Found)
        }
    }
}

/// The name of a procedure: its file's name without the ending.
pub(super) fn id(path: &Path) -> String {
    path.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default()
}
