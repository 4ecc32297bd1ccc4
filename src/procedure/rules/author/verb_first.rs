use super::words::{Form, sentences};
use crate::procedure::Step;
use crate::procedure::check::Draft;
use crate::source::{Code, Diagnostic};

/// A step that tells instead of asking.
pub static VERB_FIRST: Code = Code {
    name: "verb-first",
    summary: "verb first: a step does not begin with what to do",
    teaching: "\
A step begins with its verb, or with If or When and the condition. `The valve should be closed` leaves open whether
it is closed already, and who closes it.

Wrong: `1. The valve should be closed.`

Right: `1. Close the valve.`, or `1. When oil shows, close the valve.`
",
};

/// Words that no verb is: articles, pronouns, and the verbs that tell.
const TELLING: [&str; 40] = [
    "a", "an", "are", "can", "could", "each", "every", "has", "have", "he", "her", "his", "i", "is", "it",
    "its", "may", "might", "must", "my", "ought", "our", "shall", "she", "should", "that", "the", "their",
    "there", "these", "they", "this", "those", "was", "we", "were", "will", "would", "you", "your",
];

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    draft.steps.iter().filter_map(of_step).collect()
}

fn of_step(step: &Step) -> Option<Diagnostic> {
    let sentences = sentences(step);
    let first = sentences.first()?.words.first()?;
    if first.form == Form::Mention || !first.is(&TELLING) {
        return None;
    }
    let headline = format!("verb first: step {} does not begin with what to do", step.number);
    let label = format!("begins with `{}`", first.low);
    let diagnostic = Diagnostic::warning(&VERB_FIRST, headline).at(step.span, label);
    Some(diagnostic.help("begin with a verb, or with If or When and the condition"))
}
