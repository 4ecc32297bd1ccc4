//! Waits, from each start of the clock to the step that needed it.

use jiff::ZonedDateTime;

use super::work::Work;
use crate::journal::write_time;
use crate::procedure::{self, Name, Step};
use crate::quantity::Quantity;
use crate::record::model::{LateStart, Wait, WaitStart};
use crate::run::{Stamp, later};

pub(in crate::record) fn waits(work: &Work<'_>) -> Vec<Wait> {
    let waits = work.book().procedure.waits().iter();
    waits.map(|(name, wait)| waited(work, name, wait)).collect()
}

fn waited(work: &Work<'_>, name: &Name, wait: &procedure::Wait) -> Wait {
    let steps = || work.book().procedure.steps().iter();
    let starting = steps().filter(|step| step.starts.contains(name));
    let mut starts: Vec<WaitStart> = starting.flat_map(|step| started(work, step, wait)).collect();
    starts.sort_by_key(|start| start.began.entry);
    steps().filter(|step| step.needs.contains(name)).for_each(|step| needed(work, name, step, &mut starts));
    Wait {
        name: name.to_string(),
        what: wait.what.clone(),
        at_least: wait.at_least.as_ref().map(ToString::to_string),
        at_most: wait.at_most.as_ref().map(ToString::to_string),
        starts,
    }
}

/// The clock starts whenever the step that starts it is complete.
fn started(work: &Work<'_>, step: &Step, wait: &procedure::Wait) -> Vec<WaitStart> {
    let seen = work.of(step.id).iter();
    let starts = seen.filter_map(|seen| {
        let began: Stamp = work.inside(seen).completed(step)?;
        let stated = work.view.state.times.stated.get(&began.seq).map(|stated| &stated.done);
        let at = |from: &ZonedDateTime, after: &Quantity| write_time(&later(from, after));
        Some(WaitStart {
            place: work.place(seen),
            stated: stated.map(write_time),
            not_before: wait.at_least.as_ref().map(|least| at(&began.at, least)),
            due: wait.at_most.as_ref().map(|most| at(stated.unwrap_or(&began.at), most)),
            began: work.moment(began.seq),
            used: None,
            late: Vec::new(),
            missed: None,
        })
    });
    starts.collect()
}

/// What a step that needs a wait says of the last start before it.
fn needed(work: &Work<'_>, name: &Name, step: &Step, starts: &mut [WaitStart]) {
    for seen in work.of(step.id) {
        let Some(at) = seen.at else { continue };
        let said = &work.view.state.tree.get(at).said;
        if let Some(done) = work.inside(seen).completed(step)
            && let Some(start) = last_before(starts, done.seq)
        {
            let is_first = start.used.as_ref().is_none_or(|used| used.entry > done.seq);
            start.used = if is_first { Some(work.moment(done.seq)) } else { start.used.take() };
        }
        for (_, stamp) in said.missed.iter().filter(|(wait, _)| wait == name) {
            if let Some(start) = last_before(starts, stamp.seq) {
                start.missed = Some(work.moment(stamp.seq));
            }
        }
        for (_, entry) in said.late.iter().filter(|(wait, _)| wait == name) {
            if let Some(start) = last_before(starts, *entry) {
                start.late.push(late(work, step, *entry));
            }
        }
    }
}

fn late(work: &Work<'_>, step: &Step, entry: u64) -> LateStart {
    let deviations = &work.view.state.deviations;
    let place = deviations.binary_search_by_key(&entry, |deviation| deviation.stamp.seq).ok();
    let reason = place.and_then(|place| deviations.get(place)).map(|deviation| deviation.reason.clone());
    LateStart { step: step.number.clone(), reason: reason.unwrap_or_default(), when: work.moment(entry) }
}

fn last_before(starts: &mut [WaitStart], entry: u64) -> Option<&mut WaitStart> {
    let before = starts.partition_point(|start| start.began.entry < entry);
    before.checked_sub(1).and_then(|last| starts.get_mut(last))
}
