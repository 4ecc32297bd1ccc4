//! Whether what the procedures of a job hand on to each other is there, comes before, and is of its kind.

use std::collections::BTreeSet;

use super::codes::{JOB_HANDED_ON, JOB_NEVER_ENDED};
use super::model::{Job, Planned};
use crate::procedure::{CheckedProcedure, Name, ReadingKind, ResultOf};
use crate::quantity::Unit;
use crate::source::Diagnostic;

/// What is wrong with what is handed on, seen from the job's list; the procedures in its order, as far as they are sound.
pub fn check_handing(job: &Job, procedures: &[CheckedProcedure]) -> Vec<Diagnostic> {
    let all = Handing { job, procedures };
    let wanted = job.procedures.iter().enumerate().flat_map(|(place, planned)| all.wanted(place, planned));
    wanted.chain(all.never_ended()).collect()
}

struct Handing<'j> {
    job: &'j Job,
    procedures: &'j [CheckedProcedure],
}

impl<'j> Handing<'j> {
    fn procedure(&self, id: &str) -> Option<&'j CheckedProcedure> {
        self.procedures.iter().find(|procedure| procedure.id() == id)
    }

    /// What a procedure wants and does not get.
    fn wanted(&self, place: usize, planned: &'j Planned) -> Vec<Diagnostic> {
        let Some(procedure) = self.procedure(&planned.id) else { return Vec::new() };
        let before = self.before(place);
        let source = |from: &ResultOf| -> Result<Option<&'j CheckedProcedure>, String> {
            let place = self.job.procedures.iter().position(|one| one.id == from.procedure);
            let place = place.ok_or_else(|| format!("`{}` is no procedure of this job", from.procedure))?;
            if !before.contains(&place) {
                return Err(format!("`{}` does not come before it", from.procedure));
            }
            Ok(self.procedure(&from.procedure))
        };
        let values = procedure.vehicle().iter().filter_map(|(name, value)| {
            let from = value.handed_on.as_ref()?;
            let wrong = match source(from) {
                Ok(None) => return None,
                Ok(Some(earlier)) => result_of(earlier, from, value.unit.as_ref())?,
                Err(wrong) => wrong,
            };
            Some(told(planned, name, from, &wrong))
        });
        let holds = procedure.holds().iter().flat_map(|(name, hold)| {
            hold.handed_on.iter().chain(&hold.ends_earlier).map(move |from| (name, from))
        });
        let holds = holds.filter_map(|(name, from)| {
            let wrong = match source(from) {
                Ok(None) => return None,
                Ok(Some(earlier)) => match earlier.hold(&Name::from(&from.result)) {
                    Some(hold) if hold.stays => return None,
                    Some(_) => format!("its hold point `{}` does not say `stays = true`", from.result),
                    None => format!("it has no hold point `{}`", from.result),
                },
                Err(wrong) => wrong,
            };
            Some(told(planned, name, from, &wrong))
        });
        values.chain(holds).collect()
    }

    /// Everything that comes before a procedure, near and far.
    fn before(&self, place: usize) -> BTreeSet<usize> {
        let mut found = BTreeSet::new();
        let mut open = vec![place];
        while let Some(place) = open.pop() {
            let after = self.job.procedures.get(place).map(|planned| planned.after.as_slice());
            open.extend(after.unwrap_or_default().iter().copied().filter(|before| found.insert(*before)));
        }
        found
    }

    /// Protections that outlast their runs, and that no procedure ends.
    fn never_ended(&self) -> Vec<Diagnostic> {
        let first =
            self.job.procedures.iter().filter_map(|planned| Some((planned, self.procedure(&planned.id)?)));
        let first = first.flat_map(|(planned, procedure)| {
            let holds = procedure.holds().iter().filter(|(_, hold)| hold.stays && hold.handed_on.is_none());
            holds.map(move |(name, hold)| (planned, procedure.id(), name, hold))
        });
        let open =
            first.filter(|(_, id, name, _)| !self.procedures.iter().any(|later| ends(later, name, id)));
        open.map(|(planned, _, name, hold)| {
            let what = hold.protection.as_deref().unwrap_or_default();
            let headline = format!("no procedure of this job ends the protection of `{name}`: {what}");
            let diagnostic = Diagnostic::warning(&JOB_NEVER_ENDED, headline);
            let diagnostic = diagnostic.at(planned.span, "puts it in force, and it stays");
            let help = "let a hold point of a later one say";
            diagnostic.help(format!("{help} `ends = [\"{name} in {}\"]`", planned.id))
        })
        .collect()
    }
}

/// Whether a procedure ends a protection that was handed on to it.
fn ends(later: &CheckedProcedure, name: &Name, procedure: &str) -> bool {
    let mut holds = later.holds().iter();
    holds.any(|(own, hold)| {
        let ends = |from: &ResultOf| from.result == name.as_str() && from.procedure == procedure;
        let is_own = hold.is_handed_on_as(name.as_str(), procedure);
        hold.ends_earlier.iter().any(ends) || (is_own && !later.enders(own).is_empty())
    })
}

/// What is wrong with a result that is handed on; nothing where it is there and of its kind.
fn result_of(earlier: &CheckedProcedure, from: &ResultOf, wanted: Option<&Unit>) -> Option<String> {
    let name = Name::from(&from.result);
    let unit = match (earlier.reading(&name), earlier.value(&name)) {
        (Some(reading), _) => match &reading.kind {
            ReadingKind::Quantity { unit, .. } => Some(unit.clone()),
            _ => None,
        },
        (None, Some(value)) => Some(value.unit.clone()),
        (None, None) => return Some(format!("it has no result `{}`", from.result)),
    };
    let is_other = wanted.zip(unit.as_ref()).is_some_and(|(wanted, unit)| !wanted.is_of_the_kind_of(unit));
    is_other.then(|| format!("its result `{}` is of another kind", from.result))
}

fn told(planned: &Planned, name: &Name, from: &ResultOf, wrong: &str) -> Diagnostic {
    let headline = format!("`{name}` of `{}` is handed on from nowhere: {wrong}", planned.id);
    let diagnostic = Diagnostic::error(&JOB_HANDED_ON, headline).at(planned.span, "this one wants it");
    diagnostic.help(format!(
        "mend `handed_on = \"{from}\"` in `{}`, or let `{}` come before it, directly or by others",
        planned.address, from.procedure
    ))
}
