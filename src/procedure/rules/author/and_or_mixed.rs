//! A step does not join things by `and` and `or` so that it can be read in two ways.

use crate::procedure::Step;
use crate::procedure::check::Draft;
use crate::procedure::check::words::{Form, Sentence, Word};
use crate::source::{Code, Diagnostic};

/// Two readings of one sentence.
pub static AND_OR_MIXED: Code = Code {
    name: "and-or-mixed",
    summary: "no mixed AND and OR: a step can be read in two ways",
    teaching: "\
`the seal and the ring or the gasket` means two things, and each reader is sure of one of them. A list says which.

Wrong: `1. Fit the seal and the ring or the gasket.`

Right: `1. Fit one of these:` with `- the seal and the ring` and `- the gasket` as its parts
",
};

/// After one of these an `or` joins no two things.
const BOUND: [&str; 6] = ["more", "less", "so", "not", "fewer", "later"];

/// Numbers in words: `one or two`.
const COUNTS: [&str; 10] = ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"];

/// Words that begin a phrase of its own: what they part is not joined.
const PARTING: [&str; 20] = [
    "as", "at", "away", "back", "before", "between", "by", "for", "from", "in", "into", "of", "off", "on",
    "out", "over", "to", "under", "up", "with",
];

pub(super) fn check(_draft: &Draft<'_>, step: &Step, sentences: &[Sentence<'_>]) -> Option<Diagnostic> {
    if !sentences.iter().flat_map(Sentence::clauses).any(mixed) {
        return None;
    }
    let headline = format!("no mixed AND and OR: step {} can be read in two ways", step.number);
    let diagnostic =
        Diagnostic::warning(&AND_OR_MIXED, headline).at(step.span, "`and` and `or` in one clause");
    Some(diagnostic.help("divide it into parts, or put commas where one thing ends"))
}

fn mixed(clause: &[Word<'_>]) -> bool {
    let both = clause.iter().any(|word| word.is(&["and/or"]));
    both || clause.split(|word| word.is(&PARTING)).any(has_both)
}

fn has_both(phrase: &[Word<'_>]) -> bool {
    let and = phrase.iter().any(|word| word.is(&["and"]));
    and && (0..phrase.len()).any(|index| joins(phrase, index))
}

/// Whether the word of that place is an `or` between two things.
fn joins(clause: &[Word<'_>], index: usize) -> bool {
    let at = |index: usize| clause.get(index);
    if !at(index).is_some_and(|word| word.is(&["or"])) {
        return false;
    }
    let before = index.checked_sub(1).and_then(at);
    let counts =
        |word: Option<&Word<'_>>| word.is_some_and(|word| word.form == Form::Number || word.is(&COUNTS));
    let bound = at(index + 1).is_none_or(|word| word.is(&BOUND));
    let numbers = counts(before) && counts(at(index + 1));
    !(bound || numbers)
}
