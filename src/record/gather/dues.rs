//! What falls due after the run, as far as the steps that set it were done.

use super::work::{Work, moment};
use crate::procedure::Step;
use crate::record::amounts::amount;
use crate::record::model::Due;
use crate::run::DueAt;

pub(in crate::record) fn dues(work: &Work<'_>) -> Vec<Due> {
    let told = |due: DueAt<'_>| {
        let procedure = &work.book().procedure;
        let step = procedure.home(due.name).and_then(|step| procedure.step(step));
        Some(Due {
            name: due.name.to_string(),
            what: due.what.to_owned(),
            step: step.map(|step: &Step| step.number.clone()).unwrap_or_default(),
            since: due.since.to_string(),
            words: due.to_string(),
            by_calendar: due.by_calendar.map(|day| day.to_string()),
            odometer: due.at.as_ref().map(amount),
            estimate: due.estimate.as_ref().map(|(day, _)| day.to_string()),
            set: moment(due.set.as_ref()?),
        })
    };
    work.view.dues().into_iter().filter_map(told).collect()
}
