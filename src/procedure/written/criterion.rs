//! What makes a reading or a value good, as written: limits, a target, or nothing but information.

use super::codes::{LIMITS_CONFLICT, LIMITS_MISPLACED, LIMITS_MISSING, TARGET_WITHOUT_WITHIN};
use crate::source::{Code, Diagnostic, Span};
use crate::table::{Fields, Wording};

/// One end of a range, its formula still a text.
#[derive(Clone, Debug)]
pub struct WrittenBound {
    /// The bound.
    pub wording: Wording,
    /// Whether the bound itself is still good.
    pub inclusive: bool,
}

/// An acceptance criterion, its formulas still texts.
#[derive(Clone, Debug)]
pub enum WrittenCriterion {
    /// At least one bound.
    Limits {
        /// `min` or `above`.
        lower: Option<WrittenBound>,
        /// `max` or `below`.
        upper: Option<WrittenBound>,
    },
    /// `target` and `within`.
    Target {
        /// What is aimed at.
        target: Wording,
        /// How far from it is still good.
        within: Wording,
    },
    /// `nominal`.
    Nominal(Wording),
    /// `information_only = true`.
    InformationOnly,
}

/// The keys of an acceptance criterion, and where each stands.
const KEYS: [&str; 8] = ["min", "above", "max", "below", "target", "within", "nominal", "information_only"];

/// Pairs that say different things about the same end, or judge in different ways.
const RIVALS: [(&str, &str); 17] = [
    ("min", "above"),
    ("max", "below"),
    ("target", "min"),
    ("target", "above"),
    ("target", "max"),
    ("target", "below"),
    ("target", "nominal"),
    ("target", "information_only"),
    ("nominal", "min"),
    ("nominal", "above"),
    ("nominal", "max"),
    ("nominal", "below"),
    ("nominal", "information_only"),
    ("information_only", "min"),
    ("information_only", "above"),
    ("information_only", "max"),
    ("information_only", "below"),
];

/// The criterion of a quantity or a count; none where none is given.
pub(super) fn criterion(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenCriterion> {
    conflicts(fields);
    let lower = bound(fields, "min", "above");
    let upper = bound(fields, "max", "below");
    let target = target(fields);
    let nominal = fields.formula("nominal").map(WrittenCriterion::Nominal);
    let information = fields.mark("information_only").map(|_| WrittenCriterion::InformationOnly);
    if lower.is_some() || upper.is_some() {
        return Some(WrittenCriterion::Limits { lower, upper });
    }
    target.or(nominal).or(information)
}

/// Whether any key of a criterion is there, readable or not.
pub(super) fn says_something(fields: &mut Fields<'_, '_, '_>) -> bool {
    KEYS.iter().any(|key| fields.item(key).is_some())
}

/// Where the first key of a criterion stands.
pub(super) fn first_key(fields: &mut Fields<'_, '_, '_>) -> Option<(&'static str, Span)> {
    KEYS.into_iter().find_map(|key| Some((key, fields.item(key)?.key)))
}

fn bound(
    fields: &mut Fields<'_, '_, '_>,
    inclusive: &'static str,
    exclusive: &'static str,
) -> Option<WrittenBound> {
    let with = |inclusive: bool| move |wording: Wording| WrittenBound { wording, inclusive };
    let at = fields.formula(inclusive).map(with(true));
    let beyond = fields.formula(exclusive).map(with(false));
    at.or(beyond)
}

fn target(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenCriterion> {
    let target_key = fields.item("target").map(|item| item.key);
    let within_key = fields.item("within").map(|item| item.key);
    let target = fields.formula("target");
    let within = fields.formula("within");
    match (target_key, within_key) {
        (Some(here), None) => lonely(fields, here, "a target without `within`", "within = \"2 N·m\""),
        (None, Some(here)) => lonely(fields, here, "`within` without a target", "target = \"40 N·m\""),
        _ => {}
    }
    Some(WrittenCriterion::Target { target: target?, within: within? })
}

fn lonely(fields: &mut Fields<'_, '_, '_>, here: Span, what: &str, line: &str) {
    let headline = format!("{} has {what}", fields.owner());
    let diagnostic = Diagnostic::error(&TARGET_WITHOUT_WITHIN, headline).at(here, "only half of a criterion");
    fields.scribe.note(diagnostic.help(format!("add a line such as `{line}`")));
}

fn conflicts(fields: &mut Fields<'_, '_, '_>) {
    let keys = KEYS.into_iter().filter_map(|key| Some((key, fields.item(key)?.key)));
    let there: Vec<(&str, Span)> = keys.collect();
    let place = |wanted: &str| there.iter().find(|(key, _)| *key == wanted).map(|(_, place)| *place);
    for (one, other) in RIVALS {
        let (Some(first), Some(second)) = (place(one), place(other)) else {
            continue;
        };
        let headline = format!("{} has both `{one}` and `{other}`", fields.owner());
        let diagnostic = Diagnostic::error(&LIMITS_CONFLICT, headline);
        let diagnostic = diagnostic.at(second, "says another thing").also(first, "says one thing");
        fields.scribe.note(diagnostic.help("keep the one that the source gives"));
    }
}

pub(super) fn limits_missing(fields: &mut Fields<'_, '_, '_>, help: &str) {
    let headline = format!("{} has no acceptance criterion", fields.owner());
    let diagnostic = Diagnostic::error(&LIMITS_MISSING, headline).at(fields.place(), "when is it good?");
    let note = "where the source gives no limit the file must say so, so that nobody takes it for forgotten";
    fields.scribe.note(diagnostic.note(note).help(help));
}

/// A key that has no meaning for this kind of reading.
pub(super) fn misplaced(fields: &mut Fields<'_, '_, '_>, key: &'static str, kind: &str) {
    if let Some(item) = fields.item(key) {
        report(fields, &LIMITS_MISPLACED, item.key, &format!("`{key}` says nothing about {kind}"));
    }
}

/// A reading that has no limits may only say that it is for information.
pub(super) fn unjudged(fields: &mut Fields<'_, '_, '_>, kind: &str) {
    fields.mark("information_only");
    if let Some((key, here)) = first_key(fields)
        && key != "information_only"
    {
        report(fields, &LIMITS_MISPLACED, here, &format!("`{key}` says nothing about {kind}"));
    }
}

fn report(fields: &mut Fields<'_, '_, '_>, code: &'static Code, here: Span, label: &str) {
    let headline = format!("{} has a key that does not fit it", fields.owner());
    let diagnostic = Diagnostic::error(code, headline).at(here, label);
    fields.scribe.note(diagnostic.help("take this line out, or give the reading another kind"));
}
