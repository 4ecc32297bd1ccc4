//! The condition of a step stands before the act.

use crate::procedure::Step;
use crate::procedure::check::Draft;
use crate::procedure::check::words::{Sentence, Word};
use crate::source::{Code, Diagnostic};

/// The condition comes too late.
pub static CONDITION_LAST: Code = Code {
    name: "condition-last",
    summary: "condition before action: a step says when to act after the act",
    teaching: "\
Hands are quicker than eyes: who reads `Close the valve` closes it, before the rest of the sentence says in which
case. The condition comes first; one that is worked out from readings is declared under `[conditions]`.

Wrong: `1. Close the valve if oil shows.`

Right: `1. If oil shows, close the valve.`, or `1. [oil_shows] Close the valve.`
",
};

/// After one of these verbs `if` begins a question.
const ASKING: [&str; 19] = [
    "ask",
    "check",
    "confirm",
    "decide",
    "determine",
    "examine",
    "feel",
    "find",
    "inspect",
    "know",
    "learn",
    "listen",
    "look",
    "note",
    "observe",
    "see",
    "tell",
    "test",
    "watch",
];

/// Before one of these `if` and `when` are no condition of their own.
const IDIOM: [&str; 5] = ["as", "even", "what", "and", "or"];

pub(super) fn check(_draft: &Draft<'_>, step: &Step, sentences: &[Sentence<'_>]) -> Option<Diagnostic> {
    let word = sentences.iter().find_map(late)?;
    let headline = format!("condition before action: step {} acts before it says when", step.number);
    let diagnostic = Diagnostic::warning(&CONDITION_LAST, headline);
    let diagnostic = diagnostic.at(step.span, format!("`{}` comes after the action", word.low()));
    Some(diagnostic.help("begin with If or When, or name a condition at the front of the step"))
}

fn late<'s>(sentence: &'s Sentence<'_>) -> Option<&'s Word<'s>> {
    let words = &sentence.words;
    let begins = |index: usize| words.get(index).is_some_and(|word| word.is(&["if", "when", "unless"]));
    let index = (1..words.len()).find(|&index| begins(index) && !guards_what_follows(words, index))?;
    let opens = words.first()?.is(&["if", "when", "unless", "whenever"]);
    let asks = opens || words.iter().any(|word| word.is(&ASKING));
    words.get(index).filter(|_| !asks)
}

/// Whether the condition stands between commas, in front of an action of its own, or is none.
fn guards_what_follows(words: &[Word<'_>], index: usize) -> bool {
    let Some(before) = index.checked_sub(1).and_then(|before| words.get(before)) else {
        return true;
    };
    let opens = before.mark.is_some() || before.is(&["and", "but", "then"]);
    let closes = words.iter().skip(index).any(|word| word.mark == Some(','));
    before.is(&IDIOM) && !opens || opens && closes
}
