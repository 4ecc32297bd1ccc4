//! What makes a procedure sound, one rule a file. A rule sees the whole draft and says what is wrong with it.
//!
//! To add a rule, add a file with its codes and its `check`, its `mod` line and a row in the table below.

mod as_found;
mod author;
mod brackets;
mod ceiling_place;
mod fasteners_place;
mod formula_circle;
pub(super) mod formula_codes;
mod hold_ends;
pub(super) mod hold_place;
mod hold_readings;
mod instead_asked;
mod instrument_fits;
mod isolation;
mod known_before;
mod lead_missing;
mod link_place;
mod loss;
mod missed_path;
pub(super) mod name_table;
mod name_twice;
pub(super) mod name_unknown;
mod name_unused;
mod own_check;
mod repeat_place;
mod rules_off;
mod step_empty;
mod step_names;
mod step_numbers;
mod steps_missing;
mod title_missing;
mod wait_order;
mod watch_ends;

pub(super) use loss::stands;
pub(super) use rules_off::{advice, is_advice};

use super::check::Draft;
use super::document::Outline;
use crate::source::{Code, Diagnostic};

/// One rule.
pub(super) struct Rule {
    /// The codes it raises.
    pub(super) codes: &'static [&'static Code],
    /// What it finds.
    check: fn(&Draft<'_>) -> Vec<Diagnostic>,
}

/// All rules, sorted by file.
pub(super) static RULES: &[Rule] = &[
    Rule { codes: as_found::CODES, check: as_found::check },
    Rule { codes: brackets::CODES, check: brackets::check },
    Rule { codes: &[&ceiling_place::CEILING_PLACE], check: ceiling_place::check },
    Rule { codes: fasteners_place::CODES, check: fasteners_place::check },
    Rule { codes: &[&formula_circle::FORMULA_CIRCLE], check: formula_circle::check },
    Rule { codes: hold_ends::CODES, check: hold_ends::check },
    Rule { codes: hold_place::CODES, check: hold_place::check },
    Rule { codes: hold_readings::CODES, check: hold_readings::check },
    Rule { codes: &[&instead_asked::INSTEAD_NOT_ASKED], check: instead_asked::check },
    Rule { codes: instrument_fits::CODES, check: instrument_fits::check },
    Rule { codes: &[&isolation::ISOLATION_UNPROVED], check: isolation::check },
    Rule { codes: known_before::CODES, check: known_before::check },
    Rule { codes: &[&lead_missing::LEAD_MISSING], check: lead_missing::check },
    Rule { codes: &[&link_place::LINK_MIXED], check: link_place::check },
    Rule { codes: missed_path::CODES, check: missed_path::check },
    Rule { codes: &[&name_twice::NAME_TWICE], check: name_twice::check },
    Rule { codes: &[&name_unknown::MENTION_UNKNOWN], check: name_unknown::check },
    Rule { codes: &[&name_unused::NAME_UNUSED], check: name_unused::check },
    Rule { codes: own_check::CODES, check: own_check::check },
    Rule { codes: repeat_place::CODES, check: repeat_place::check },
    Rule { codes: rules_off::CODES, check: rules_off::check },
    Rule { codes: &[&step_empty::STEP_EMPTY], check: step_empty::check },
    Rule { codes: &[&step_names::STEP_PLACE], check: step_names::check },
    Rule { codes: step_numbers::CODES, check: step_numbers::check },
    Rule { codes: wait_order::CODES, check: wait_order::check },
    Rule { codes: watch_ends::CODES, check: watch_ends::check },
];

/// Codes that are raised where formulas and names of the front matter are followed.
pub(super) static FOLLOWED: &[&Code] = &[
    &formula_codes::AMOUNT_NOT_KNOWN,
    &formula_codes::CONDITION_NOT_TRUTH,
    &formula_codes::COUNT_WRONG,
    &formula_codes::FORMULA_NAME,
    &formula_codes::FORMULA_UNIT,
    &formula_codes::LIMIT_UNIT,
    &name_table::NAME_WRONG_TABLE,
];

/// Codes of the body's shape.
pub(super) static SHAPE: &[&Code] = &[&steps_missing::STEPS_MISSING, &title_missing::TITLE_MISSING];

/// What every rule has to say.
pub(super) fn judge(draft: &Draft<'_>) -> impl Iterator<Item = Diagnostic> {
    RULES.iter().flat_map(|rule| (rule.check)(draft))
}

/// The codes of advice, which a file can turn off.
pub(super) fn advice_codes() -> impl Iterator<Item = &'static Code> {
    author::codes()
}

/// What can be said of the body alone.
pub(super) fn shape(outline: &Outline) -> Vec<Diagnostic> {
    let missing = [title_missing::check(outline), steps_missing::check(outline)];
    missing.into_iter().flatten().collect()
}
