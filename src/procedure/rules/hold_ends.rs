//! A protection is put in force, and ended later by a hold point.

use crate::procedure::check::Draft;
use crate::procedure::written::WrittenHold;
use crate::procedure::{Name, Step};
use crate::source::{Code, Diagnostic, Spanned};

/// All codes of this rule.
pub(super) static CODES: &[&Code] = &[&PROTECTION_ENDED_EARLY, &PROTECTION_MISSING, &PROTECTION_NEVER_ENDED];

/// A protection that ends before it begins.
pub static PROTECTION_ENDED_EARLY: Code = Code {
    name: "protection-ended-early",
    summary: "a protection is ended before it is surely in force",
    teaching: "\
The hold point that ends a protection comes after the one that puts it in force, in the order of the steps, and
not beside it in a list whose order is free.

Wrong: `[lowering]`, which ends `support`, in step 1.2, and `[support]` in step 2.1

Right: `[support]` in step 1.2 and `[lowering]` in step 2.1
",
};

/// Nothing to end.
pub static PROTECTION_MISSING: Code = Code {
    name: "protection-missing",
    summary: "a hold point ends one that puts nothing in force",
    teaching: "\
`ends` names hold points that have a `protection`: something that stays in force, such as stands, a disconnected
battery or a capped line, until it is taken away on purpose.

Wrong: `ends = [\"battery_off\"]` where `battery_off` has no `protection`

Right: `protection = \"battery disconnected, terminal covered\"` in `[holds.battery_off]`
",
};

/// A protection for ever.
pub static PROTECTION_NEVER_ENDED: Code = Code {
    name: "protection-never-ended",
    summary: "no hold point ends a protection",
    teaching: "\
A run cannot be closed while a protection is in force. For each one there is a later hold point that names it in
`ends`: tools clear, people clear, then take it away. Where several steps verify it, its end comes after the last.
Where a later procedure of the job goes on under it, `stays = true` lets it outlast the run.

Wrong: `protection = \"vehicle on four stands\"` and no `ends` that names the hold point

Right: `[holds.lowering]` with `ends = [\"support\"]`
",
};

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    for (name, hold) in draft.holds() {
        found.extend(hold.ends.iter().filter_map(|ended| ending(draft, name, ended)));
        found.extend(never_ended(draft, name, hold));
    }
    found
}

fn ending(draft: &Draft<'_>, name: &Spanned<Name>, ended: &Spanned<String>) -> Option<Diagnostic> {
    let (place, hold) = draft.hold(&ended.value)?;
    if hold.protection.is_none() {
        let headline = format!("`{}` puts no protection in force that could end", ended.value);
        let diagnostic = Diagnostic::error(&PROTECTION_MISSING, headline).at(ended.span, "nothing to end");
        let help =
            format!("add `protection = \"...\"` to `[holds.{}]`, or take it out of `ends`", ended.value);
        return Some(diagnostic.also(place.span, "no `protection` here").help(help));
    }
    let first = draft.step_of_hold(&place.value)?;
    let later = draft.steps_of_hold(&name.value).find(|later| !draft.surely_before(first, later))?;
    let headline = format!("step {} may end a protection that is not yet in force", later.number);
    let diagnostic = Diagnostic::error(&PROTECTION_ENDED_EARLY, headline).at(later.span, "ended here");
    let diagnostic = diagnostic.also(first.span, "put in force here").also(ended.span, "named here");
    Some(diagnostic.help(format!("move the step below step {}, in a numbered list", first.number)))
}

fn never_ended(draft: &Draft<'_>, name: &Spanned<Name>, hold: &WrittenHold) -> Option<Diagnostic> {
    let protection = hold.protection.as_ref().filter(|_| !hold.stays)?;
    let ends = |other: &WrittenHold| other.ends.iter().any(|ended| ended.value == name.value.as_str());
    let last = draft.steps_of_hold(&name.value).next_back();
    let enders: Vec<&Name> =
        draft.holds().filter(|(_, other)| ends(other)).map(|(ender, _)| &ender.value).collect();
    let mut places = enders.iter().flat_map(|ender| draft.steps_of_hold(ender));
    // Where it is verified once, that its end comes later is said of the end.
    let is_once = draft.steps_of_hold(&name.value).count() < 2;
    let comes_after = |place: &Step| last.is_none_or(|last| draft.surely_before(last, place));
    if !enders.is_empty() && (is_once || places.any(comes_after)) {
        return None;
    }
    let headline = match last.filter(|_| !is_once) {
        Some(last) => format!("nothing ends the protection of `{}` after step {}", name.value, last.number),
        None => format!("nothing ends the protection of `{}`", name.value),
    };
    let diagnostic =
        Diagnostic::error(&PROTECTION_NEVER_ENDED, headline).at(protection.span, "in force for ever");
    let diagnostic = match last.filter(|_| !is_once) {
        Some(last) => diagnostic.also(last.span, "put in force again here"),
        None => diagnostic,
    };
    let note = "a job cannot be closed while a protection is in force";
    Some(
        diagnostic
            .note(note)
            .help(format!("add `ends = [\"{}\"]` to a hold point that comes later", name.value)),
    )
}
