use super::codes::{HOLD_CONFIRMS_NOTHING, word_unknown};
use crate::procedure::Lapses;
use crate::source::{Diagnostic, Spanned};
use crate::table::{Fields, time};

/// A hold point whose names are not followed yet.
#[derive(Clone, Debug)]
pub struct WrittenHold {
    /// What it guards.
    pub what: String,
    /// Why it is there.
    pub why: Option<String>,
    /// Statements confirmed one by one.
    pub confirm: Vec<String>,
    /// Names of readings taken at it.
    pub readings: Vec<Spanned<String>>,
    /// The role that releases it.
    pub release: Spanned<String>,
    /// The role of a second person.
    pub second: Option<Spanned<String>>,
    /// When it lapses.
    pub lapses: Lapses,
    /// The protection it puts in force.
    pub protection: Option<Spanned<String>>,
    /// The hold points whose protections it ends.
    pub ends: Vec<Spanned<String>>,
    /// The energy that it isolates.
    pub isolates: Option<Spanned<String>>,
}

/// `[holds]`.
pub(super) fn hold(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenHold> {
    let what = fields.need_text("what", "the vehicle stands safely on four stands");
    let why = fields.text("why");
    let confirm = fields.texts("confirm").map(|list| list.value).unwrap_or_default();
    let readings = fields.texts("readings").map(|list| list.value).unwrap_or_default();
    let release = fields.need_text("release", "lead");
    let second = fields.text("second");
    let lapses = lapses(fields);
    let protection = fields.text("protection");
    let ends = fields.texts("ends").map(|list| list.value).unwrap_or_default();
    let isolates = fields.text("isolates");
    if confirm.is_empty() && readings.is_empty() {
        confirms_nothing(fields);
    }
    Some(WrittenHold {
        what: what?.value,
        why: why.map(|why| why.value),
        confirm: confirm.into_iter().map(|statement| statement.value).collect(),
        readings,
        release: release?,
        second,
        lapses,
        protection,
        ends,
        isolates,
    })
}

fn confirms_nothing(fields: &mut Fields<'_, '_, '_>) {
    let headline = format!("{} confirms nothing", fields.owner());
    let diagnostic = Diagnostic::error(&HOLD_CONFIRMS_NOTHING, headline);
    let diagnostic = diagnostic.at(fields.place(), "neither statements nor readings");
    let help = "add `confirm = [\"all four pins are locked\"]`, or `readings = [\"stand_rating\"]`";
    fields.scribe.note(diagnostic.help(help));
}

fn lapses(fields: &mut Fields<'_, '_, '_>) -> Lapses {
    let words = fields.texts("lapses").map(|list| list.value).unwrap_or_default();
    let mut lapses = Lapses::default();
    for word in words {
        match word.value.as_str() {
            "resume" => lapses.on_resume = true,
            "disturbed" => lapses.when_disturbed = true,
            "people" => lapses.on_people = true,
            text if text.starts_with(|first: char| first.is_ascii_digit()) => {
                lapses.after = time(fields, &word).map(|time| time.value);
            }
            _ => fields.scribe.note(word_unknown(
                "reason to lapse",
                &word,
                &["resume", "disturbed", "people", "8 h"],
            )),
        }
    }
    lapses
}
