//! A step asks for one action, so that its tick leaves no doubt.

use super::verbs::{SUBORDINATE, acts, is_known};
use crate::procedure::Step;
use crate::procedure::check::Draft;
use crate::procedure::check::words::{After, Sentence, Word};
use crate::source::{Code, Diagnostic};

/// Two acts, one tick.
pub static TWO_ACTIONS: Code = Code {
    name: "two-actions",
    summary: "one action per step: a step asks for two",
    teaching: "\
A step is ticked off once. With two actions in it nobody knows, after an interruption, which of them is done. The
reading or the note that an action ends in belongs to it and is no second action.

Wrong: `1. Remove the cover and torque the nut.`

Right: `1. Remove the cover.` and `2. Torque the nut.`
",
};

/// Acts that last, and go on during the next one.
const LASTING: [&str; 4] = ["hold", "keep", "let", "leave"];

pub(super) fn check(_draft: &Draft<'_>, step: &Step, sentences: &[Sentence<'_>]) -> Option<Diagnostic> {
    if step.hold.is_some() {
        return None;
    }
    let acting = sentences.first().and_then(|first| first.words.first()).is_some_and(is_known);
    let again =
        sentences.iter().find(|sentence| acting && sentence.after == After::Stop && acts(&sentence.words));
    let second = again.and_then(|sentence| sentence.words.first());
    let second = second.or_else(|| sentences.iter().find_map(second_verb))?;
    let headline = format!("one action per step: step {} asks for two", step.number);
    let label = format!("`{}` is a second action", second.low());
    let diagnostic = Diagnostic::warning(&TWO_ACTIONS, headline).at(step.span, label);
    Some(diagnostic.help("make it a step of its own, or give the step a list of its parts"))
}

/// A verb after `and` or `then`, where the words before it do not say that it only tells something.
fn second_verb<'s>(sentence: &'s Sentence<'_>) -> Option<&'s Word<'s>> {
    if sentence.words.first()?.is(&LASTING) {
        return None;
    }
    let mut joined: Option<&Word<'_>> = None;
    for (index, word) in sentence.words.iter().enumerate() {
        let rest = sentence.words.get(index..)?;
        if joined.is_some() && index > 1 && acts(rest) && !told(sentence.words.get(..index)?) {
            return Some(word);
        }
        joined = word.is(&["and", "then"]).then_some(word);
    }
    None
}

/// Whether the words of the last clause tell something: `so that it can be lifted and`, `to lift and`.
fn told(before: &[Word<'_>]) -> bool {
    let begins = before.len().saturating_sub(1);
    let joint = before.get(..begins).unwrap_or_default();
    let start = joint.iter().rposition(|word| word.mark.is_some()).map_or(0, |comma| comma + 1);
    let clause = joint.get(start..).unwrap_or_default();
    let purpose = clause.windows(2).any(|pair| pair[0].is(&["to"]) && is_known(&pair[1]));
    let pair = clause.len() == 1 && start == 0;
    purpose || pair || clause.iter().any(|word| word.is(&SUBORDINATE))
}
