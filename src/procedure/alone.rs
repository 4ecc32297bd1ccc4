//! From the text of one file to a checked procedure, its links still to be followed.

use super::Declarations;
use super::document::{FRONT_MATTER_MISSING, FRONT_MATTER_YAML, Outline, WrittenLink, outline, split};
use super::link::is_procedure;
use super::written;
use super::{CheckedProcedure, StepId, check, rules};
use crate::source::{Diagnostic, Found, Severity, SourceText};

/// What a text is without those that it links to.
#[derive(Clone, Debug)]
pub(super) struct Alone {
    /// The procedure; its links are not followed.
    pub(super) value: Option<CheckedProcedure>,
    /// What there is to say.
    pub(super) diagnostics: Vec<Diagnostic>,
    /// Its links to other procedures, and the steps that they stand in.
    pub(super) links: Vec<(StepId, WrittenLink)>,
}

/// Whether a text is meant as a procedure or a job: front matter stands in it, however badly. A page in Markdown has none.
///
/// ```
/// use bayhand::procedure::has_front_matter;
///
/// assert!(has_front_matter("+++\nformat = 1\n+++\n# Drain\n") && !has_front_matter("# Notes\n"));
/// assert!(!has_front_matter("# How one is written\n\n```\n+++\nformat = 1\n+++\n```\n"));
/// ```
pub fn has_front_matter(text: &str) -> bool {
    let none = [FRONT_MATTER_MISSING.name, FRONT_MATTER_YAML.name];
    let is_there = split(text).diagnostics.iter().all(|said| !none.contains(&said.code.name));
    is_there && !is_shown_only(text)
}

/// Whether what looks like a front matter stands in a block of code: a page that teaches how one is written.
fn is_shown_only(text: &str) -> bool {
    let before = text.lines().take_while(|line| line.trim_end() != "+++");
    before.filter(|line| line.starts_with("```")).count() % 2 == 1
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
    let mut body = outline(text.text(), halves.body, &is_reading);
    diagnostics.append(&mut body.diagnostics);
    if halves.front.is_some() && !body.value.cut_short {
        diagnostics.extend(rules::shape(&body.value));
    }
    let declarations = declarations.as_ref().filter(|_| !body.value.cut_short);
    let value = judged(declarations, &mut body.value, text, id, &mut diagnostics);
    let loss = declarations.map(|all| all.loss).unwrap_or_default();
    diagnostics.retain(|said| rules::stands(said, loss));
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
    outline: &mut Outline,
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
    declarations.readings.named(name).is_some() || declarations.values.named(name).is_some()
}
