use super::document::{Outline, outline, split};
use super::written::{self, Declarations};
use super::{CheckedProcedure, check, rules};
use crate::source::{Diagnostic, Found, Severity, SourceText};

/// Reads and checks a procedure file; `id` is what others call it: its file name without the ending.
///
/// The procedure comes out only when nothing is wrong with it; everything there is to say about the text comes
/// out in any case, in the order of the text; advice on how it is written comes once nothing is wrong.
///
/// ```
/// use bayhand::procedure::read;
/// use bayhand::source::SourceText;
///
/// let found = read(&SourceText::new("notes.md", "# Notes\n"), "notes");
/// assert!(found.value.is_none());
/// assert_eq!(found.diagnostics[0].code.name, "front-matter-missing");
/// ```
pub fn read(text: &SourceText, id: &str) -> Found<Option<CheckedProcedure>> {
    let Found { value: halves, mut diagnostics } = split(text.text());
    let mut declarations = None;
    if let Some(front) = halves.front {
        let found = written::read(text.text(), front);
        diagnostics.extend(found.diagnostics);
        declarations = found.value;
    }
    let is_reading = |name: &str| declarations.as_ref().is_some_and(|all| declares_reading(all, name));
    let body = outline(text.text(), halves.body, &is_reading);
    diagnostics.extend(body.diagnostics);
    if halves.front.is_some() && !body.value.cut_short {
        diagnostics.extend(rules::shape(&body.value));
    }
    let declarations = declarations.as_ref().filter(|_| !body.value.cut_short);
    let value = judged(declarations, &body.value, text, id, &mut diagnostics);
    if broken(&diagnostics) {
        diagnostics.retain(|diagnostic| !rules::is_advice(diagnostic));
    }
    diagnostics.sort_by_key(Diagnostic::place);
    diagnostics.dedup();
    Found { value, diagnostics }
}

fn judged(
    declarations: Option<&Declarations>,
    outline: &Outline,
    text: &SourceText,
    id: &str,
    diagnostics: &mut Vec<Diagnostic>,
) -> Option<CheckedProcedure> {
    let before = broken(diagnostics);
    let found = check::check(declarations?, outline, text, id);
    diagnostics.extend(found.diagnostics);
    found.value.filter(|_| !before)
}

fn broken(diagnostics: &[Diagnostic]) -> bool {
    diagnostics.iter().any(|diagnostic| diagnostic.severity == Severity::Error)
}

fn declares_reading(declarations: &Declarations, name: &str) -> bool {
    let readings = declarations.readings.iter().map(|entry| &entry.name);
    let values = declarations.values.iter().map(|entry| &entry.name);
    readings.chain(values).any(|declared| declared.value.as_str() == name)
}
