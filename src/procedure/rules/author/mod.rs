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
use crate::procedure::check::Draft;
use crate::source::{Code, Diagnostic};

/// All of them, sorted by file.
pub(super) static RULES: &[Rule] = &[
    Rule { codes: &[&and_or_mixed::AND_OR_MIXED], check: and_or_mixed::check },
    Rule { codes: &[&answers_many::ANSWERS_MANY], check: answers_many::check },
    Rule { codes: &[&avoid_no_step::AVOID_NO_STEP], check: avoid_no_step::check },
    Rule { codes: &[&caution_no_injury::CAUTION_NO_INJURY], check: caution_no_injury::check },
    Rule { codes: condition_constant::CODES, check: condition_constant::check },
    Rule { codes: &[&condition_last::CONDITION_LAST], check: condition_last::check },
    Rule { codes: &[&fails_missing::FAILS_MISSING], check: fails_missing::check },
    Rule { codes: &[&hazard_late::HAZARD_LATE], check: hazard_late::check },
    Rule { codes: &[&limit_idle::LIMIT_IDLE], check: limit_idle::check },
    Rule { codes: &[&negative_wording::NEGATIVE_WORDING], check: negative_wording::check },
    Rule { codes: &[&reading_idle::READING_IDLE], check: reading_idle::check },
    Rule { codes: &[&section_long::SECTION_LONG], check: section_long::check },
    Rule { codes: &[&statement_twice::STATEMENT_TWICE], check: statement_twice::check },
    Rule { codes: &[&two_actions::TWO_ACTIONS], check: two_actions::check },
    Rule { codes: &[&verb_first::VERB_FIRST], check: verb_first::check },
];

/// The codes that a file can turn off.
pub(super) fn codes() -> impl Iterator<Item = &'static Code> {
    RULES.iter().flat_map(|rule| rule.codes.iter().copied())
}

/// What these rules have to say, those included that the file turns off.
pub(super) fn judge(draft: &Draft<'_>) -> Vec<Diagnostic> {
    RULES.iter().flat_map(|rule| (rule.check)(draft)).collect()
}
