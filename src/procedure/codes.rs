//! All diagnostic codes of procedures in one list, gathered from where they are declared.

use super::sheet::SHEET_CODES;
use super::{document, link, rules, written};
use crate::source::Code;

/// Every code that reading and checking a procedure can raise by itself, sorted by name; what its formulas raise
/// is in [`crate::formula::CODES`], what vehicle sheets raise in [`crate::vehicle::CODES`].
pub fn codes() -> Vec<&'static Code> {
    let from_rules = rules::RULES.iter().flat_map(|rule| rule.codes.iter().copied());
    let tables = [
        crate::table::CODES,
        document::CODES,
        link::CODES,
        written::CODES,
        rules::FOLLOWED,
        rules::SHAPE,
        SHEET_CODES,
    ];
    let from_tables = tables.into_iter().flatten().copied();
    let mut codes: Vec<_> = from_rules.chain(from_tables).chain(rules::advice_codes()).collect();
    codes.sort_by_key(|code| code.name);
    codes
}
