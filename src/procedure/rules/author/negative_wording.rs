//! A step says what to do, not what to leave alone.

use crate::procedure::Step;
use crate::procedure::check::Draft;
use crate::procedure::check::words::{Sentence, Word};
use crate::source::{Code, Diagnostic};

/// What not to do.
pub static NEGATIVE_WORDING: Code = Code {
    name: "negative-wording",
    summary: "positive wording: a step says what not to do",
    teaching: "\
A step says what to do. What must be left alone is a hazard with its consequence, or a note; a ban that is a step
can be ticked off without anything having been done.

Wrong: `1. Do not let go of the lever.`

Right: `1. Hold the lever.`
",
};

pub(super) fn check(_draft: &Draft<'_>, step: &Step, sentences: &[Sentence<'_>]) -> Option<Diagnostic> {
    let words = sentences.iter().find_map(ban)?;
    let headline = format!("positive wording: step {} says what not to do", step.number);
    let diagnostic = Diagnostic::warning(&NEGATIVE_WORDING, headline).at(step.span, format!("`{words}`"));
    Some(diagnostic.help("say what to do instead; a ban belongs into a hazard or a note"))
}

/// A ban at the beginning of a clause; `the hoses do not touch` is a state.
fn ban(sentence: &Sentence<'_>) -> Option<&'static str> {
    let words = &sentence.words;
    (0..words.len()).filter(|&index| begins(words, index)).find_map(|index| {
        let word = words.get(index)?;
        let next = words.get(index + 1);
        match () {
            () if word.is(&["do"]) && next.is_some_and(|next| next.is(&["not"])) => Some("do not"),
            () if word.is(&["don't"]) => Some("don't"),
            () => word.is(&["never"]).then_some("never"),
        }
    })
}

fn begins(words: &[Word<'_>], index: usize) -> bool {
    let Some(before) = index.checked_sub(1) else {
        return true;
    };
    let joint = ["and", "but", "or", "then", "please"];
    words.get(before).is_some_and(|word| word.mark.is_some() || word.is(&joint))
}
