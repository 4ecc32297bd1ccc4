//! A job asks no more than a person can answer with a clear head: sixty answers without repeats.

use super::answers::Answers;
use super::asked::Part;
use crate::procedure::check::Draft;
use crate::source::{Code, Diagnostic};

/// The most answers on the way.
const MOST: usize = 60;

/// How many of the largest parts are told.
const TOLD: usize = 3;

/// A way that asks too much.
pub static ANSWERS_MANY: Code = Code {
    name: "answers-many",
    summary: "the way asks for more than sixty answers",
    teaching: "\
Whoever is asked for everything soon answers without reading. Counted is what is asked when all is as it should
be, each repeat once: statements, releases, readings, steps done, hazards, waits, people, ends of sections. The
places of fasteners, the steps under conditions and linked files are left out. Ask for what protects or decides,
and let one act be one step.

Wrong: five statements that a reading of the same hold point proves, and a step for each cap that is put down

Right: the reading, and one step `Cap both line ends: [caps_on].`
",
};

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let answers = Answers::of(draft);
    let count = answers.always();
    if count <= MOST {
        return Vec::new();
    }
    let title = draft.outline.title.as_ref().map(|title| title.span);
    let Some(place) = title.or_else(|| draft.sections.first().map(|section| section.span)) else {
        return Vec::new();
    };
    let parts: Vec<String> = answers.largest().into_iter().take(TOLD).map(told).collect();
    let headline = format!("the way asks for {count} answers, more than {MOST}");
    let diagnostic = Diagnostic::warning(&ANSWERS_MANY, headline).at(place, parts.join(", "));
    let apart =
        [(answers.fasteners(), "at the places of fasteners"), (answers.perhaps(), "under conditions")];
    let apart = apart.into_iter().filter(|(more, _)| *more > 0);
    let diagnostic =
        apart.fold(diagnostic, |diagnostic, (more, which)| diagnostic.note(format!("{which}: {more} more")));
    vec![
        diagnostic.help(
            "ask for what protects or decides; what is one act can be one step, or a procedure of its own",
        ),
    ]
}

fn told((part, count): (Part, usize)) -> String {
    format!("{count} {}", part.words())
}
