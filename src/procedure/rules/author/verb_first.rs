//! A step begins with its verb, or with the condition for it.

use crate::procedure::Step;
use crate::procedure::check::Draft;
use crate::procedure::check::words::{Form, Sentence, Speech};
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

/// Words that make a sentence of what would be a thing in a list.
const STATING: [&str; 12] =
    ["are", "can", "has", "have", "is", "may", "must", "shall", "should", "was", "were", "will"];

pub(super) fn check(draft: &Draft<'_>, step: &Step, sentences: &[Sentence<'_>]) -> Option<Diagnostic> {
    let words = &sentences.first()?.words;
    let first = words.first()?;
    if first.form == Form::Mention || !first.is(&TELLING) {
        return None;
    }
    if !words.iter().any(|word| word.is(&STATING)) && is_listed(draft, step) {
        return None;
    }
    let headline = format!("verb first: step {} does not begin with what to do", step.number);
    let label = format!("begins with `{}`", first.low());
    let diagnostic = Diagnostic::warning(&VERB_FIRST, headline).at(step.span, label);
    Some(diagnostic.help("begin with a verb, or with If or When and the condition"))
}

/// Whether it is a part of a step whose sentence it goes on with: `Lay out:` and a list of things.
fn is_listed(draft: &Draft<'_>, step: &Step) -> bool {
    let parent = step.parent.and_then(|parent| draft.step(parent));
    parent.is_some_and(|parent| {
        Speech::of_step(parent).sentences().last().and_then(Sentence::mark) == Some(':')
    })
}
