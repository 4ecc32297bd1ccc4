//! What the runs of a job leave to those that come after: protections in force, loose ends.

use std::collections::BTreeMap;

use jiff::ZonedDateTime;

use super::model::Job;
use crate::procedure::Name;
use crate::run::{Became, EndId, Inherited, InheritedEnd, InheritedProtection, LooseEnd};
use crate::session::StoredRun;

/// A loose end of a job.
#[derive(Clone, Debug, PartialEq)]
pub struct JobEnd {
    /// As the run that left it hands it on.
    pub end: InheritedEnd,
    /// Where in that run it was left.
    pub left_at: String,
    /// The entry that left it, and when.
    pub left: Option<(u64, ZonedDateTime)>,
    /// What became of it, in which run, at which entry; nothing while it is open.
    pub became: Option<(Became, String, u64)>,
}

/// What a run of the procedure at a place of the list is begun with.
pub fn inherited(job: &Job, place: usize, runs: &[StoredRun]) -> Inherited {
    let open = loose_ends(runs).into_iter().filter(|end| end.became.is_none());
    Inherited {
        is_last: job.procedures.iter().all(|planned| !planned.after.contains(&place)),
        protections: protections(runs),
        loose_ends: open.map(|end| end.end).collect(),
    }
}

/// The protections that the runs of a job have put in force and that may outlast them, each as it was looked at last.
pub fn protections(runs: &[StoredRun]) -> Vec<InheritedProtection> {
    let mut in_force: BTreeMap<(String, String), InheritedProtection> = BTreeMap::new();
    for run in in_order(runs) {
        let holds = run.book.procedure.holds().iter().filter(|(_, hold)| hold.stays);
        for (name, hold) in holds {
            let root = match &hold.handed_on {
                Some(from) => (from.procedure.clone(), from.result.clone()),
                None => (run.book.procedure.id().to_owned(), name.to_string()),
            };
            match looked_at(run, name) {
                Looked::Never => {}
                Looked::Ended => drop(in_force.remove(&root)),
                Looked::InForce(mut protection) => {
                    (protection.procedure, protection.hold) = root.clone();
                    in_force.insert(root, protection);
                }
            }
        }
        let enders = run.book.procedure.holds().iter().filter(|(_, hold)| !hold.ends_earlier.is_empty());
        for (_, hold) in enders.filter(|(name, _)| !matches!(looked_at(run, name), Looked::Never)) {
            for from in &hold.ends_earlier {
                in_force.remove(&(from.procedure.clone(), from.result.clone()));
            }
        }
    }
    in_force.into_values().collect()
}

/// How a run left a protection.
enum Looked {
    Never,
    Ended,
    InForce(InheritedProtection),
}

fn looked_at(run: &StoredRun, name: &Name) -> Looked {
    let (Some((_, last)), Some(hold)) = (run.events.last(), run.book.procedure.hold(name)) else {
        return Looked::Never;
    };
    let view = run.view(&last.at);
    let Some((_, released)) = view.last_release(name) else { return Looked::Never };
    if view.is_ended(name) {
        return Looked::Ended;
    }
    let what = hold.protection.clone().unwrap_or_default();
    Looked::InForce(InheritedProtection {
        hold: name.to_string(),
        procedure: run.book.procedure.id().to_owned(),
        short: hold.short.clone().unwrap_or_else(|| what.clone()),
        what,
        run: run.id.as_str().to_owned(),
        entry: released.seq,
        by: view.releaser_of(name),
        at: released.at,
    })
}

/// All loose ends of a job, in the order in which its runs began.
pub fn loose_ends(runs: &[StoredRun]) -> Vec<JobEnd> {
    in_order(runs).into_iter().flat_map(|run| left_by(run, runs)).collect()
}

fn left_by(run: &StoredRun, runs: &[StoredRun]) -> Vec<JobEnd> {
    let Some((_, last)) = run.events.last() else { return Vec::new() };
    let own = run.view(&last.at).loose_ends().into_iter().filter_map(|end| {
        let EndId::Own { entry, name } = end.id.clone() else { return None };
        let id = InheritedEnd {
            what: end.what.clone(),
            run: run.id.as_str().to_owned(),
            entry,
            name: name.map(|name| name.to_string()),
        };
        Some(job_end(id, end, run, runs))
    });
    own.collect()
}

fn job_end(id: InheritedEnd, end: LooseEnd<'_>, run: &StoredRun, runs: &[StoredRun]) -> JobEnd {
    let here = end.became.map(|(became, stamp)| (became.clone(), run.id.as_str().to_owned(), stamp.seq));
    let became = here.or_else(|| runs.iter().find_map(|later| became_in(later, &id)));
    JobEnd { end: id, left_at: end.left_at, left: end.stamp.map(|stamp| (stamp.seq, stamp.at)), became }
}

/// What became of a loose end in a later run, that it was handed on to.
fn became_in(later: &StoredRun, id: &InheritedEnd) -> Option<(Became, String, u64)> {
    let inherited = &later.start()?.inherited.loose_ends;
    let is_same = |end: &InheritedEnd| (&end.run, end.entry, &end.name) == (&id.run, id.entry, &id.name);
    let place = inherited.iter().position(is_same)?;
    let became = later.state.loose.became.iter().rev().find(|(of, _, _)| *of == EndId::HandedOn(place))?;
    Some((became.1.clone(), later.id.as_str().to_owned(), became.2.seq))
}

fn in_order(runs: &[StoredRun]) -> Vec<&StoredRun> {
    let mut ordered: Vec<&StoredRun> = runs.iter().collect();
    ordered.sort_by_key(|run| {
        let began = run.events.first().map(|(_, stamp)| stamp.at.timestamp());
        (began, run.id.as_str().to_owned())
    });
    ordered
}
