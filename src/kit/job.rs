//! What a whole job takes, from what each of its procedures takes.

use super::model::{Evening, JobKit, ProcedureKit, Time};
use super::sums::{cost, hours, sums, tools};
use crate::job::{Job, Planned};

/// What a whole job takes; `kits` are those of its procedures, in the order of its list.
pub fn job_kit(job: &Job, kits: Vec<ProcedureKit>) -> JobKit {
    let tools = tools(&kits);
    let materials = sums(&kits, |kit| &kit.materials);
    let parts = sums(&kits, |kit| &kit.parts);
    let (cost, without_cost) = cost(materials.iter().chain(&parts));
    let procedures = job.procedures.iter().zip(kits).enumerate();
    let procedures = procedures.map(|(place, (planned, kit))| evening(place + 1, planned, kit)).collect();
    let (job_id, title, what) = (job.id.clone(), job.title.clone(), job.what.clone());
    let time = time(&job.procedures);
    JobKit { job: job_id, title, what, tools, materials, parts, cost, without_cost, time, procedures }
}

fn evening(place: usize, planned: &Planned, kit: ProcedureKit) -> Evening {
    Evening {
        place,
        title: planned.title.clone(),
        alone: planned.alone.clone(),
        two: planned.two.clone(),
        away: planned.away.clone(),
        kit,
    }
}

/// What can be done alone counts as such, also where two are quicker.
fn time(procedures: &[Planned]) -> Time {
    let takes_two = procedures.iter().filter(|one| one.alone.is_none());
    Time {
        alone: hours(procedures.iter().filter_map(|one| one.alone.as_ref())),
        two: hours(takes_two.filter_map(|one| one.two.as_ref())),
        not_said: procedures.iter().filter(|one| one.alone.is_none() && one.two.is_none()).count(),
    }
}
