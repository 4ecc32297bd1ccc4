//! Numbers of steps: those that texts speak of, and those typed in front of the items of a list.

use crate::procedure::check::Draft;
use crate::procedure::document::StepNumbers;
use crate::procedure::{Group, Order, StepId};
use crate::source::{Code, Diagnostic, Span};

/// All codes of this rule.
pub(super) static CODES: &[&Code] = &[&LIST_NUMBERS, &STEP_NUMBER, &STEP_NUMBER_UNKNOWN];

/// Typed numbers that are not shown.
pub static LIST_NUMBERS: Code = Code {
    name: "list-numbers",
    summary: "the numbers typed in front of a list are not those that are shown",
    teaching: "\
Markdown takes the number of the first item of a list and counts on from there, whatever is typed in front of
the others. Here the items of a section are counted from 1. Who reads the file as text and who sees it on a
screen would speak of different steps.

Wrong: `1.`, `2.`, `7.`, `8.`

Right: `1.`, `2.`, `3.`, `4.`; or `1.` in front of each
",
};

/// A number of a step that there is, in words.
pub static STEP_NUMBER: Code = Code {
    name: "step-number",
    summary: "a text speaks of a step by its number",
    teaching: "\
Numbers of steps are counted: a step added before it, or another procedure that runs this one, makes it another
number, and the text then sends somebody to a wrong step. A name stays: a step gets one under `[steps]`, begins
with it, and a mention of the name shows the number that the step has.

Wrong: `9. If it leaks, go back to step 4.2.`

Right: `refill = \"fill in the first part\"` under `[steps]`, `2. [refill] Fill in ...`, `Go back to [refill].`
",
};

/// A number of no step, in words.
pub static STEP_NUMBER_UNKNOWN: Code = Code {
    name: "step-number-unknown",
    summary: "a text speaks of a step by a number that no step is shown with",
    teaching: "\
Steps are shown with the number of their section in front: 4.2 is the second step of the fourth section. A
number that no step has leads nowhere. A step gets a name under `[steps]`, begins with it, and a mention of the
name shows the number that the step has. The texts of the front matter show no numbers: there, say what is done
in that step.

Wrong: `Go back to step 42.`, `see steps 6 through 8`

Right: `refill = \"fill in the first part\"` under `[steps]`, `2. [refill] Fill in ...`, `Go back to [refill].`
",
};

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let in_body = draft.outline.step_numbers.iter().map(|said| spoken_of(draft, said, IN_BODY));
    let in_front = draft.declarations.step_numbers.iter().map(|said| spoken_of(draft, said, IN_FRONT));
    in_body.chain(in_front).chain(lists(draft)).collect()
}

const IN_BODY: &str = "name the step under `[steps]`, begin it with its name, and write the name in brackets here: `go back to [refill]`";
const IN_FRONT: &str = "say what is done in that step: texts of the front matter show no numbers";

fn spoken_of(draft: &Draft<'_>, said: &StepNumbers, help: &str) -> Diagnostic {
    let diagnostic = match said.numbers.iter().find(|number| !draft.is_number(&number.value)) {
        Some(number) => {
            let headline = format!("no step is shown as step {}", number.value);
            Diagnostic::error(&STEP_NUMBER_UNKNOWN, headline).at(said.span, "leads nowhere")
        }
        None => Diagnostic::warning(&STEP_NUMBER, "a step is spoken of by its number")
            .at(said.span, "another step, once one is added before it or another procedure runs this one"),
    };
    diagnostic.help(help)
}

fn lists(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let sections = draft.outline.parts.iter().map(|part| part.groups.as_slice());
    let steps = draft.steps.iter().map(|step| step.groups.as_slice());
    sections.chain(steps).flat_map(|groups| misnumbered(draft, groups)).collect()
}

/// What is wrong with the lists that are counted together: those of a section, or of a step.
fn misnumbered(draft: &Draft<'_>, groups: &[Group]) -> Vec<Diagnostic> {
    let mut before = 0;
    let mut found = Vec::new();
    for group in groups {
        if group.order == Order::InOrder {
            found.extend(wrong_in(draft, group, before));
        }
        before += group.steps.len();
    }
    found
}

fn wrong_in(draft: &Draft<'_>, group: &Group, before: usize) -> Option<Diagnostic> {
    let typed: Vec<(StepId, usize)> =
        group.steps.iter().filter_map(|id| Some((*id, number_at(draft, *id)?))).collect();
    let first = typed.first()?.1;
    let may_begin = first == 1 || first == before + 1;
    let all_alike = typed.iter().all(|(_, number)| *number == first);
    let in_order = |place: usize, number: usize| number == first + place;
    let wrong = match may_begin {
        false => typed.first(),
        true if all_alike => None,
        true => typed
            .iter()
            .enumerate()
            .find(|(place, (_, number))| !in_order(*place, *number))
            .map(|(_, wrong)| wrong),
    };
    let (id, number) = wrong?;
    let (written, step) = (draft.outline.steps.get(id.0)?, draft.step(*id)?);
    let headline = format!("this step is typed as {number} and shown as {}", step.number);
    let digits = Span::new(written.span.start, written.span.start + number.to_string().len());
    let diagnostic = Diagnostic::warning(&LIST_NUMBERS, headline).at(digits, "not the number that is shown");
    Some(
        diagnostic
            .help("number the items of the list one after the other from 1, or write `1.` in front of each"),
    )
}

fn number_at(draft: &Draft<'_>, id: StepId) -> Option<usize> {
    draft.outline.steps.get(id.0)?.typed.and_then(|number| usize::try_from(number).ok())
}
