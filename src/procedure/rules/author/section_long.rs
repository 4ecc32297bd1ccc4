//! A section is short enough to be kept in view: nine steps at the most.

use crate::procedure::Section;
use crate::procedure::check::Draft;
use crate::source::{Code, Diagnostic};

/// The most steps of a section.
const MOST: usize = 9;

/// A section without a breath.
pub static SECTION_LONG: Code = Code {
    name: "section-long",
    summary: "a section has more than nine steps",
    teaching: "\
A section is what is done in one breath; at its end the person pauses and says that it is complete. Five to nine
steps can be kept in view. Parts of a step do not count.

Wrong: one section `## Remove the pump` with fourteen steps

Right: `## Drain the pump` and `## Lift the pump out`
",
};

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    draft.sections.iter().filter_map(of_section).collect()
}

fn of_section(section: &Section) -> Option<Diagnostic> {
    let steps: usize = section.groups.iter().map(|group| group.steps.len()).sum();
    if steps <= MOST {
        return None;
    }
    let whose = if section.title.is_empty() { "the part before the first heading" } else { &section.title };
    let headline = format!("`{whose}` has {steps} steps, more than {MOST}");
    let diagnostic =
        Diagnostic::warning(&SECTION_LONG, headline).at(section.span, "a long way without a pause");
    Some(diagnostic.help("divide it where the job can rest, or make some steps the parts of one"))
}
