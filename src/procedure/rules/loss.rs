//! What is not said of a file in whose front matter a slip hides something: that something else is missing.

use crate::procedure::Loss;
use crate::source::Diagnostic;

/// What these say might be untrue if the tables that could not be read were known.
const OF_THINGS: [&str; 8] = [
    super::as_found::AS_FOUND_ALONE.name,
    super::hold_ends::PROTECTION_NEVER_ENDED.name,
    super::instead_asked::INSTEAD_NOT_ASKED.name,
    super::isolation::ISOLATION_UNPROVED.name,
    super::known_before::NEEDED_NEVER.name,
    super::name_unused::NAME_UNUSED.name,
    super::repeat_place::REPEAT_ENDLESS.name,
    super::repeat_place::REPEAT_UNFORESEEN.name,
];

/// And these, if the names that cannot be told were known.
const OF_NAMES: [&str; 3] = [
    super::lead_missing::LEAD_MISSING.name,
    super::name_unknown::MENTION_UNKNOWN.name,
    crate::formula::codes::NAME_UNKNOWN.name,
];

/// Whether a finding stands whatever was lost.
pub(in crate::procedure) fn stands(said: &Diagnostic, loss: Loss) -> bool {
    let code = said.code.name;
    match loss {
        Loss::Nothing => true,
        Loss::Things => !OF_THINGS.contains(&code),
        Loss::Names => !OF_THINGS.contains(&code) && !OF_NAMES.contains(&code),
    }
}
