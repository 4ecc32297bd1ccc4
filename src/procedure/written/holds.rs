//! `[holds]`.

use super::codes::word_unknown;
use super::hold_codes::{HOLD_ANEW_NEVER, HOLD_CONFIRMS_NOTHING, HOLD_SHORT, HOLD_STAYS};
use super::result_of::ResultOf;
use crate::procedure::check::Proved;
use crate::procedure::declarable::{Called, Declarable, Spoken};
use crate::procedure::{Hold, Lapses, Name, Table};
use crate::source::{Diagnostic, Spanned};
use crate::table::{Fields, time};

/// The most letters of the short name of a protection.
const LONGEST_SHORT: usize = 20;

/// A hold point whose names are not followed yet.
#[derive(Clone, Debug)]
pub struct WrittenHold {
    /// What it guards.
    pub what: String,
    /// Why it is there.
    pub why: Option<String>,
    /// Statements confirmed one by one.
    pub confirm: Vec<Spanned<String>>,
    /// The places of those that are asked anew when one of its readings is taken again.
    pub anew: Vec<usize>,
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
    /// What that protection is called in a word or two.
    pub short: Option<String>,
    /// Whether that protection may outlast the run: a later procedure of the job ends it.
    pub stays: bool,
    /// The hold point of an earlier procedure of the job that put it in force.
    pub handed_on: Option<ResultOf>,
    /// The hold points whose protections it ends.
    pub ends: Vec<Spanned<String>>,
    /// Those of earlier procedures of the job.
    pub ends_earlier: Vec<ResultOf>,
    /// The energy that it isolates.
    pub isolates: Option<Spanned<String>>,
}

impl Declarable for Hold {
    type Written = WrittenHold;

    fn read(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenHold> {
        hold(fields)
    }

    fn spoken(written: &WrittenHold) -> Vec<Spoken<'_>> {
        let release = Spoken::of(&written.release, &[Table::Roles], "who releases a hold point");
        let second = |name| Spoken::of(name, &[Table::Roles], "the second person of a hold point");
        let taken = |name| Spoken::of(name, &[Table::Readings, Table::Fasteners], "what a hold point reads");
        let ended = |name| Spoken::of(name, &[Table::Holds], "what a hold point ends");
        let readings = written.readings.iter().map(taken);
        let ends = written.ends.iter().map(ended);
        written.second.iter().map(second).chain([release]).chain(readings).chain(ends).collect()
    }

    fn checked(_name: &Name, written: &WrittenHold, proved: &Proved<'_>) -> Option<Self> {
        Some(followed(written, proved))
    }

    fn called(&self) -> Called<'_> {
        Called::Words(&self.what)
    }
}

/// The hold point, its readings and its groups of fasteners told apart.
fn followed(written: &WrittenHold, proved: &Proved<'_>) -> Hold {
    let is_group =
        |name: &&Spanned<String>| proved.names.table(&Name::from(&name.value)) == Some(Table::Fasteners);
    let (fasteners, readings): (Vec<_>, Vec<_>) = written.readings.iter().partition(is_group);
    let name = |name: &Spanned<String>| Name::from(&name.value);
    Hold {
        what: written.what.clone(),
        why: written.why.clone(),
        confirm: written.confirm.iter().map(|statement| statement.value.clone()).collect(),
        anew: written.anew.clone(),
        readings: readings.into_iter().map(name).collect(),
        fasteners: fasteners.into_iter().map(name).collect(),
        release: name(&written.release),
        second: written.second.as_ref().map(name),
        lapses: written.lapses.clone(),
        protection: written.protection.as_ref().map(|protection| protection.value.clone()),
        short: written.short.clone(),
        stays: written.stays,
        handed_on: written.handed_on.clone(),
        ends: written.ends.iter().map(name).collect(),
        ends_earlier: written.ends_earlier.clone(),
        isolates: written.isolates.as_ref().map(|energy| energy.value.clone()),
    }
}

fn hold(fields: &mut Fields<'_, '_, '_>) -> Option<WrittenHold> {
    let what = fields.need_text("what", "the vehicle stands safely on four stands");
    let why = fields.text("why");
    let confirm = fields.texts("confirm").map(|list| list.value).unwrap_or_default();
    let readings = fields.texts("readings").map(|list| list.value).unwrap_or_default();
    let anew = anew(fields, &confirm, readings.is_empty());
    let release = fields.need_text("release", "lead");
    let second = fields.text("second");
    let lapses = lapses(fields);
    let protection = fields.text("protection");
    let short = short(fields, protection.is_some());
    let (stays, handed_on) = stays(fields, protection.is_some());
    let ended = fields.texts("ends").map(|list| list.value).unwrap_or_default();
    let (earlier, ends): (Vec<_>, Vec<_>) = ended.into_iter().partition(|one| one.value.contains(" in "));
    let ends_earlier = earlier.iter().filter_map(|one| ResultOf::read(fields, one)).collect();
    let isolates = fields.text("isolates");
    if confirm.is_empty() && readings.is_empty() {
        confirms_nothing(fields);
    }
    Some(WrittenHold {
        what: what?.value,
        why: why.map(|why| why.value),
        confirm,
        anew,
        readings,
        release: release?,
        second,
        lapses,
        protection,
        short,
        stays,
        handed_on,
        ends,
        ends_earlier,
        isolates,
    })
}

/// Whether the protection outlasts the run, and where it comes from.
fn stays(fields: &mut Fields<'_, '_, '_>, protects: bool) -> (bool, Option<ResultOf>) {
    let keys = ["stays", "handed_on"].map(|key| fields.item(key).map(|item| item.key));
    let stays = fields.mark("stays").is_some();
    let handed_on = fields.text("handed_on").and_then(|written| ResultOf::read(fields, &written));
    if let Some(key) = keys.into_iter().flatten().next().filter(|_| !protects) {
        let headline = format!("{} hands nothing on", fields.owner());
        let diagnostic =
            Diagnostic::error(&HOLD_STAYS, headline).at(key, "there is no protection that it could be");
        let help = "add `protection = \"vehicle on four stands\"`, or take it out";
        fields.scribe.note(diagnostic.help(help));
    }
    (stays || handed_on.is_some(), handed_on)
}

/// What the protection is called where every screen names it.
fn short(fields: &mut Fields<'_, '_, '_>, protects: bool) -> Option<String> {
    let short = fields.text("short")?;
    let (label, help) = if !protects {
        (
            "there is no protection that it names",
            "add `protection = \"vehicle on four stands\"`, or take it out",
        )
    } else if short.value.chars().count() > LONGEST_SHORT {
        ("too long for a row that others share", "say it in a word or two: `short = \"on stands\"`")
    } else {
        return Some(short.value);
    };
    let headline = format!("the short name of {} does not do", fields.owner());
    fields.scribe.note(Diagnostic::error(&HOLD_SHORT, headline).at(short.span, label).help(help));
    None
}

/// Statements that a retake takes back; each stands word for word in `confirm`.
fn anew(fields: &mut Fields<'_, '_, '_>, confirm: &[Spanned<String>], never: bool) -> Vec<usize> {
    let Some(listed) = fields.texts("anew_after_retake") else { return Vec::new() };
    if never {
        let headline = format!("{} reads nothing that could be taken again", fields.owner());
        let diagnostic = Diagnostic::error(&HOLD_ANEW_NEVER, headline).at(listed.span, "never asked anew");
        fields.scribe.note(diagnostic.help("add `readings`, or take this out"));
    }
    let known: Vec<&str> = confirm.iter().map(|statement| statement.value.as_str()).collect();
    let mut places = Vec::new();
    for statement in listed.value {
        let place = known.iter().position(|known| *known == statement.value);
        if place.is_none() {
            let diagnostic = word_unknown("statement of `confirm`", &statement, &known);
            fields.scribe.note(diagnostic);
        }
        places.extend(place);
    }
    places
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
