//! What a reading says beyond its limits: its ceiling, as found or as left, what to do on either side.

use super::codes::{CEILING_UNCLEAR, FIX_WITHOUT_LIMIT, OCCASION_UNCLEAR};
use super::criterion::{WrittenCriterion, misplaced};
use crate::procedure::Sides;
use crate::source::{Diagnostic, Span, Spanned};
use crate::table::{Fields, Wording};

/// What a reading says beyond its limits: what it must never pass, and whether it is read before or after an
/// adjustment.
#[derive(Clone, Debug, Default)]
pub struct WrittenHandling {
    /// Where it says that it is read as found.
    pub as_found: Option<Span>,
    /// The reading of what was found, for one of what is left.
    pub as_left: Option<Spanned<String>>,
    /// What it must never pass.
    pub ceiling: Option<WrittenCeiling>,
}

/// What a reading must never pass, its formulas still texts.
#[derive(Clone, Debug)]
pub struct WrittenCeiling {
    /// `never_below`
    pub never_below: Option<Wording>,
    /// `never_above`
    pub never_above: Option<Wording>,
    /// The hold point that it opens.
    pub opens: Spanned<String>,
}

/// What a number says of itself.
pub(super) fn of_number(fields: &mut Fields<'_, '_, '_>) -> WrittenHandling {
    let ceiling = ceiling(fields);
    WrittenHandling { ceiling, ..of_anything(fields) }
}

/// The same where there is no number that could be too high.
pub(super) fn of_no_number(fields: &mut Fields<'_, '_, '_>) -> WrittenHandling {
    for key in ["never_below", "never_above", "opens", "too_low", "too_high"] {
        misplaced(fields, key, "what is no number");
    }
    of_anything(fields)
}

fn of_anything(fields: &mut Fields<'_, '_, '_>) -> WrittenHandling {
    let as_found = fields.mark("as_found");
    let as_left = fields.text("as_left");
    if let (Some(found), Some(left)) = (as_found, &as_left) {
        let headline = format!("{} is both as found and as left", fields.owner());
        let diagnostic = Diagnostic::error(&OCCASION_UNCLEAR, headline).at(left.span, "read afterwards");
        fields.scribe.note(
            diagnostic
                .also(found, "read before")
                .help("declare two readings, one for each; take one key out here"),
        );
    }
    WrittenHandling { as_found, as_left, ceiling: None }
}

fn ceiling(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenCeiling> {
    let keys = ["never_below", "never_above"];
    let ends = keys.into_iter().find_map(|key| fields.item(key)).map(|item| item.key);
    let hold = fields.item("opens").map(|item| item.key);
    let never_below = fields.formula("never_below");
    let never_above = fields.formula("never_above");
    let opens = fields.text("opens");
    match (ends, hold) {
        (Some(here), None) => unclear(fields, here, "beyond it, which hold point is verified again?"),
        (None, Some(here)) => unclear(fields, here, "beyond what?"),
        _ => {}
    }
    Some(WrittenCeiling { never_below, never_above, opens: ends.and(opens)? })
}

fn unclear(fields: &mut Fields<'_, '_, '_>, here: Span, label: &str) {
    let headline = format!("{} says only half of what it must never pass", fields.owner());
    let diagnostic = Diagnostic::error(&CEILING_UNCLEAR, headline).at(here, label);
    fields
        .scribe
        .note(diagnostic.help("write both, such as `never_above = \"4 bar\"` and `opens = \"line_shut\"`"));
}

/// What to do on either side, where there is such a side.
pub(super) fn sides(fields: &mut Fields<'_, '_, '_>, criterion: &WrittenCriterion) -> Sides {
    let (lower, upper) = match criterion {
        WrittenCriterion::Limits { lower, upper } => (lower.is_some(), upper.is_some()),
        WrittenCriterion::Target { .. } => (true, true),
        WrittenCriterion::Nominal(_) | WrittenCriterion::InformationOnly => (false, false),
    };
    Sides {
        too_low: side(fields, "too_low", Limited::from(lower), "a lower limit such as `min`"),
        too_high: side(fields, "too_high", Limited::from(upper), "an upper limit such as `max`"),
    }
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Limited {
    Yes,
    No,
}

impl From<bool> for Limited {
    fn from(limited: bool) -> Self {
        if limited { Self::Yes } else { Self::No }
    }
}

fn side(fields: &mut Fields<'_, '_, '_>, key: &'static str, limited: Limited, needs: &str) -> Option<String> {
    let words = fields.text(key)?;
    if limited == Limited::No {
        let headline = format!("`{key}` of {} is never shown", fields.owner());
        let diagnostic =
            Diagnostic::error(&FIX_WITHOUT_LIMIT, headline).at(words.span, "no limit on this side");
        fields.scribe.note(diagnostic.help(format!("add {needs}, or take the line out")));
    }
    Some(words.value)
}
