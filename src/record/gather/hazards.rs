//! Hazards that were read and understood.

use super::work::Work;
use crate::record::model::Acknowledgement;
use crate::run::StepAt;

pub(in crate::record) fn hazards(work: &Work<'_>) -> Vec<Acknowledgement> {
    let mut told: Vec<Acknowledgement> = work.seen.iter().flat_map(|seen| at(work, seen)).collect();
    told.sort_by_key(|told| told.when.entry);
    told
}

fn at(work: &Work<'_>, seen: &StepAt<'_>) -> Vec<Acknowledgement> {
    let Some(at) = seen.at else { return Vec::new() };
    let acknowledged = work.view.state.tree.get(at).said.acknowledged.iter();
    let told = acknowledged.filter_map(|(hazard, entry)| {
        let declared = work.book().procedure.hazard(hazard)?;
        Some(Acknowledgement {
            signal: declared.signal.word().to_owned(),
            hazard: declared.hazard.clone(),
            step: seen.step.number.clone(),
            place: work.place(seen),
            when: work.moment(*entry),
        })
    });
    told.collect()
}
