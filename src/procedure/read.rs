//! From the text of one file to a checked procedure, its links still to be followed.

use super::Declarations;
use super::document::{Outline, WrittenLink, outline, split};
use super::link::{Shelf, is_procedure, read_linked};
use super::written;
use super::{CheckedProcedure, StepId, check, rules};
use crate::source::{Diagnostic, Found, Severity, SourceText};

/// Reads and checks a procedure file that links to no other; `id` is what others call it: its file name without the
/// ending. [`read_linked`] also follows links.
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
    let found = read_linked(text, id, &Shelf::default());
    Found { value: found.value, diagnostics: found.diagnostics }
}

/// What a text is without those that it links to.
pub(super) struct Alone {
    /// The procedure; its links are not followed.
    pub(super) value: Option<CheckedProcedure>,
    /// What there is to say.
    pub(super) diagnostics: Vec<Diagnostic>,
    /// Its links to other procedures, and the steps that they stand in.
    pub(super) links: Vec<(StepId, WrittenLink)>,
}

/// Reads and checks a text by itself.
pub(super) fn read_alone(text: &SourceText, id: &str) -> Alone {
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
    Alone { value, diagnostics, links: links(&body.value) }
}

fn links(outline: &Outline) -> Vec<(StepId, WrittenLink)> {
    let steps = outline.steps.iter().enumerate();
    let links = steps.flat_map(|(place, step)| step.links.iter().map(move |link| (StepId(place), link)));
    links.filter(|(_, link)| is_procedure(&link.address)).map(|(step, link)| (step, link.clone())).collect()
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
