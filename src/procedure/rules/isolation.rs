//! Energy that is isolated is shown to be gone: prepared, locked, measured and tried.

use crate::procedure::check::Draft;
use crate::procedure::written::{WrittenHold, WrittenKind, WrittenReading};
use crate::procedure::{CountsAs, Name};
use crate::source::{Code, Diagnostic, Spanned};

/// Energy that is isolated and not shown to be gone.
pub static ISOLATION_UNPROVED: Code = Code {
    name: "isolation-unproved",
    summary: "a hold point isolates energy and does not prove that it is gone",
    teaching: "\
Isolating has a fixed order: prepare, shut down, isolate, lock and tag, relieve what is stored, verify. The
statements under `confirm` are asked in their order, at least five of them; then come the readings. Verifying takes
two of them: one that measures, with a limit, and one that tries it, with the choices that are accepted. What
`instead` names in them proves nothing and can only fail.

Wrong: `isolates = \"the battery\"` with only `confirm = [\"the lead is off\"]`

Right: five statements, and `readings = [\"volts_left\", \"try_start\"]`
",
};

/// Prepare, shut down, isolate, lock and tag, relieve: 29 CFR 1910.147 (d)(1) to (5). The sixth, verify, is read.
const BEFORE_VERIFYING: usize = 5;

pub(super) fn check(draft: &Draft<'_>) -> Vec<Diagnostic> {
    draft.holds().filter_map(|(name, hold)| unproved(draft, name, hold)).collect()
}

fn unproved(draft: &Draft<'_>, name: &Spanned<Name>, hold: &WrittenHold) -> Option<Diagnostic> {
    let energy = hold.isolates.as_ref()?;
    let readings = || hold.readings.iter().filter_map(|reading| reading_of(draft, &reading.value));
    let lacks = if hold.confirm.len() < BEFORE_VERIFYING {
        "not each of prepare, shut down, isolate, lock and tag, relieve has its statement"
    } else if !readings().any(measures) {
        "nothing measures that it is gone"
    } else if !readings().any(tries) {
        "nobody tries it"
    } else {
        return None;
    };
    let headline = format!("`{}` isolates {} and does not prove it", name.value, energy.value);
    let diagnostic = Diagnostic::error(&ISOLATION_UNPROVED, headline).at(energy.span, lacks);
    Some(diagnostic.help("`bayhand explain isolation-unproved` shows what belongs to it"))
}

fn reading_of<'d>(draft: &'d Draft<'_>, name: &str) -> Option<&'d WrittenReading> {
    draft.declarations.readings.thing(name)
}

fn measures(reading: &WrittenReading) -> bool {
    use crate::procedure::written::WrittenCriterion::{Limits, Target};
    matches!(&reading.kind, WrittenKind::Quantity { criterion: Limits { .. } | Target { .. }, .. })
        && only_its_value_passes(reading)
}

fn tries(reading: &WrittenReading) -> bool {
    matches!(&reading.kind, WrittenKind::Choice { accept: Some(_), .. }) && only_its_value_passes(reading)
}

/// Words in place of a value prove nothing: they must fail.
fn only_its_value_passes(reading: &WrittenReading) -> bool {
    reading.instead.iter().all(|outcome| outcome.counts == CountsAs::Fail)
}
