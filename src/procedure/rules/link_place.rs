//! A step that runs another procedure does nothing that cannot go with it.

use crate::procedure::check::Draft;
use crate::procedure::document::WrittenLink;
use crate::procedure::link::is_procedure;
use crate::procedure::{Step, StepId};
use crate::source::{Code, Diagnostic};

/// A link in a step that cannot have one.
pub static LINK_MIXED: Code = Code {
    name: "link-mixed",
    summary: "a step that runs another procedure does something else that cannot go with it",
    teaching: "\
The sections of a linked procedure become parts of the step that links to it. A hold point has no parts, of a
choice only one part is done, and two procedures in one step have no order.

Wrong: `1. [support] [Set it on stands](stands.md)`, `2. [Flush](flush.md) and [refill](refill.md).`

Right: a step of its own for each link; in a choice, a link in each part
",
};

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let steps = draft.outline.steps.iter().enumerate();
    steps.flat_map(|(place, written)| mixed(draft, StepId(place), &written.links)).collect()
}

fn mixed(draft: &Draft<'_>, id: StepId, links: &[WrittenLink]) -> Vec<Diagnostic> {
    let mut links = links.iter().filter(|link| is_procedure(&link.address));
    let (Some(first), Some(step)) = (links.next(), draft.step(id)) else {
        return Vec::new();
    };
    let second = links.next().map(|second| {
        let headline = format!("step {} runs two procedures", step.number);
        let diagnostic = Diagnostic::error(&LINK_MIXED, headline).at(second.span, "the second");
        diagnostic.also(first.span, "the first").help("give each a step of its own")
    });
    with_something_else(step, first).into_iter().chain(second).collect()
}

fn with_something_else(step: &Step, link: &WrittenLink) -> Option<Diagnostic> {
    let (what, help) = match (&step.hold, &step.alternatives) {
        (Some(_), _) => ("is a hold point", "put the link into a step of its own, before or after it"),
        (None, Some(_)) => ("is a choice", "put the link into one of its parts"),
        (None, None) => return None,
    };
    let headline = format!("step {} {what} and runs another procedure", step.number);
    Some(Diagnostic::error(&LINK_MIXED, headline).at(link.span, "this runs another procedure").help(help))
}
