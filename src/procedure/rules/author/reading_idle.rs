//! A reading is taken for something: it is judged, something uses it, or it is said why it is taken.

use std::collections::HashSet;

use crate::procedure::Name;
use crate::procedure::check::Draft;
use crate::procedure::rules::name_unknown::everywhere;
use crate::procedure::written::{WrittenCriterion, WrittenKind, WrittenReading};
use crate::source::{Code, Diagnostic, Spanned};

/// A reading that nothing comes of.
pub static READING_IDLE: Code = Code {
    name: "reading-idle",
    summary: "a reading has no limit, nothing uses it, and nobody is told why it is taken",
    teaching: "\
Each reading costs whoever types it a wiped hand and a look away from the work. One without a limit, which no
formula, condition, hold point or later step speaks of, only fills the record. If the record needs it, `why` says
so, and the person who is asked is told; else it is taken out.

Wrong: `[readings.bin]` with `what = \"colour of the rag bin\"` and `kind = \"text\"`

Right: the same with `why = \"Whoever empties it looks for this colour.\"`, or no such reading
",
};

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let readings = draft.declarations.readings.iter();
    let bare = readings.filter(|entry| entry.thing.as_deref().is_some_and(is_bare));
    let bare: Vec<_> = bare.map(|entry| &entry.name).collect();
    if bare.is_empty() {
        return Vec::new();
    }
    let used = used(draft);
    let idle = bare.into_iter().filter(|name| !used.contains(name.value.as_str()));
    idle.filter(|name| draft.source_of(&name.value).is_some()).map(report).collect()
}

/// Whether a reading says nothing that would be a reason to take it.
fn is_bare(reading: &WrittenReading) -> bool {
    let handling = &reading.handling;
    let is_paired = handling.as_found.is_some() || handling.as_left.is_some();
    let is_judged = judges(&reading.kind) || reading.has_failing_outcome() || handling.ceiling.is_some();
    !is_judged && !is_paired && reading.second.is_none() && reading.why.is_none()
}

const fn judges(kind: &WrittenKind) -> bool {
    match kind {
        WrittenKind::Quantity { criterion, .. } | WrittenKind::Count(criterion) => {
            !matches!(criterion, WrittenCriterion::InformationOnly)
        }
        WrittenKind::Choice { accept, .. } => accept.is_some(),
        WrittenKind::Date { earliest, latest } => earliest.is_some() || latest.is_some(),
        WrittenKind::Text | WrittenKind::List(_) | WrittenKind::File => false,
    }
}

/// What formulas, hold points, repeats and other entries speak of, and what the text shows again after it was read.
fn used<'d>(draft: &'d Draft<'_>) -> HashSet<&'d str> {
    let spoken = draft.declarations.spoken().into_iter().map(|spoken| spoken.name.value.as_str());
    let mut used: HashSet<&str> = draft.formulas.used.iter().map(Name::as_str).chain(spoken).collect();
    let mut seen = HashSet::new();
    let all = everywhere(draft).into_iter().map(|name| name.value.as_str());
    used.extend(all.filter(|name| !seen.insert(*name)));
    used
}

fn report(name: &Spanned<Name>) -> Diagnostic {
    let headline = format!("nothing comes of the reading `{}`", name.value);
    let diagnostic =
        Diagnostic::warning(&READING_IDLE, headline).at(name.span, "no limit, not used, and not said why");
    diagnostic.help("take it out, or add `why = \"...\"` with what the record needs it for")
}
