//! What makes a procedure good to work by, one rule a file: advice, looked at once nothing is wrong with a file.
//!
//! Each finding is a warning, and each rule can be turned off in a file with a reason.

mod and_or_mixed;
mod answers;
mod answers_many;
mod asked;
mod avoid_no_step;
mod caution_no_injury;
mod certain;
mod condition_constant;
mod condition_last;
mod fails_missing;
mod hazard_late;
mod limit_idle;
mod negative_wording;
mod reading_idle;
mod section_long;
mod statement_twice;
mod two_actions;
mod verb_first;
mod verbs;

use super::Rule;
use crate::procedure::Step;
use crate::procedure::check::Draft;
use crate::procedure::check::words::{Sentence, Speech};
use crate::source::{Code, Diagnostic};

/// Those that look at the whole, sorted by file.
pub(super) static RULES: &[Rule] = &[
    Rule { codes: &[&answers_many::ANSWERS_MANY], check: answers_many::check },
    Rule { codes: &[&avoid_no_step::AVOID_NO_STEP], check: avoid_no_step::check },
    Rule { codes: &[&caution_no_injury::CAUTION_NO_INJURY], check: caution_no_injury::check },
    Rule { codes: condition_constant::CODES, check: condition_constant::check },
    Rule { codes: &[&fails_missing::FAILS_MISSING], check: fails_missing::check },
    Rule { codes: &[&hazard_late::HAZARD_LATE], check: hazard_late::check },
    Rule { codes: &[&limit_idle::LIMIT_IDLE], check: limit_idle::check },
    Rule { codes: &[&reading_idle::READING_IDLE], check: reading_idle::check },
    Rule { codes: &[&section_long::SECTION_LONG], check: section_long::check },
    Rule { codes: &[&statement_twice::STATEMENT_TWICE], check: statement_twice::check },
];

/// A rule that reads what a step says.
struct OfWords {
    code: &'static Code,
    /// What it finds in a step, sentence by sentence.
    check: fn(&Draft<'_>, &Step, &[Sentence<'_>]) -> Option<Diagnostic>,
}

/// All of those, sorted by file. Each step is divided into sentences once for all of them.
static OF_WORDS: &[OfWords] = &[
    OfWords { code: &and_or_mixed::AND_OR_MIXED, check: and_or_mixed::check },
    OfWords { code: &condition_last::CONDITION_LAST, check: condition_last::check },
    OfWords { code: &negative_wording::NEGATIVE_WORDING, check: negative_wording::check },
    OfWords { code: &two_actions::TWO_ACTIONS, check: two_actions::check },
    OfWords { code: &verb_first::VERB_FIRST, check: verb_first::check },
];

/// The codes that a file can turn off.
pub(super) fn codes() -> impl Iterator<Item = &'static Code> {
    let of_words = OF_WORDS.iter().map(|rule| rule.code);
    RULES.iter().flat_map(|rule| rule.codes.iter().copied()).chain(of_words)
}

/// What these rules have to say, those included that the file turns off.
pub(super) fn judge(draft: &Draft<'_>) -> impl Iterator<Item = Diagnostic> {
    let of_words = draft.steps.iter().flat_map(|step| {
        let speech = Speech::of_step(step);
        let sentences = speech.sentences();
        OF_WORDS.iter().filter_map(|rule| (rule.check)(draft, step, &sentences)).collect::<Vec<_>>()
    });
    RULES.iter().flat_map(|rule| (rule.check)(draft)).chain(of_words)
}
