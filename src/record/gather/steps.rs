//! Steps, each occurrence by itself, and what became of it.

use super::wording::{filled, origin};
use super::work::Work;
use crate::journal::write_time;
use crate::record::model::{Change, Late, Moment, Step};
use crate::run::{Said, Status, StepAt};

pub(in crate::record) fn steps(work: &Work<'_>) -> Vec<Step> {
    work.seen.iter().map(|seen| became(work, seen)).collect()
}

fn became(work: &Work<'_>, seen: &StepAt<'_>) -> Step {
    let (here, step) = (work.inside(seen), seen.step);
    let procedure = &work.book().procedure;
    let status = work.view.state_of(*seen, work.current);
    let changes = changes(work, seen);
    let last = changes.iter().map(|change| change.when.entry).max();
    let last = last
        .or_else(|| here.is_touched(step).then(|| work.view.state.last.as_ref().map_or(0, |last| last.seq)));
    let section = procedure.section(step.section);
    Step {
        number: step.number.clone(),
        place: work.place(seen),
        section: section.map(|section| section.title.clone()).unwrap_or_default(),
        from: origin(procedure, step.source),
        text: filled(work, seen, &step.text),
        state: status.word().to_owned(),
        why: match status {
            Status::NotApplicable(why) | Status::NotFinished(why) => Some(why),
            Status::Deferred(before) => Some(format!("until {}", before.words(work.book()))),
            _ => None,
        },
        who: last.map(|entry| work.people(Some(step), entry)).unwrap_or_default(),
        changes,
    }
}

/// What was said of an occurrence, in the order of the entries.
fn changes(work: &Work<'_>, seen: &StepAt<'_>) -> Vec<Change> {
    let Some(at) = seen.at else { return Vec::new() };
    let (here, said) = (work.inside(seen), &work.view.state.tree.get(at).said);
    let mut changes = words(work, said);
    if let Some(done) = here.all_done(seen.step).filter(|_| here.is_touched(seen.step)) {
        changes.push(change("done", None, work.moment(done.seq), late(work, done.seq)));
    }
    let end = work.view.state.tree.get(at).end.as_ref();
    if let Some((end, aside)) = end.zip(work.place_at(at).aside) {
        changes.push(change(&aside.how, Some(aside.reason), work.moment(end.stamp.seq), None));
    }
    changes.sort_by_key(|change| change.when.entry);
    changes
}

fn words(work: &Work<'_>, said: &Said) -> Vec<Change> {
    let deferred = said.put_off.as_ref().map(|put_off| {
        let to = format!("deferred (until {})", put_off.before.words(work.book()));
        change(&to, Some(put_off.reason.clone()), work.moment(put_off.stamp.seq), None)
    });
    let left_out = said.left_out.as_ref().map(|(reason, entry)| {
        let lead = work.people(None, *entry).join(" and ");
        let to = format!("not applicable, approved by {lead}");
        change(&to, Some(reason.clone()), work.moment(*entry), None)
    });
    let settled = said.settled.map(|entry| {
        let deviations = &work.view.state.deviations;
        let place = deviations.iter().position(|deviation| deviation.stamp.seq == entry);
        let deviation = place.map(|place| format!(", deviation {}", place + 1)).unwrap_or_default();
        let reason = place.and_then(|place| deviations.get(place)).map(|deviation| deviation.reason.clone());
        let to = format!("left as it was done, under what no longer holds{deviation}");
        change(&to, reason, work.moment(entry), None)
    });
    deferred.into_iter().chain(left_out).chain(settled).collect()
}

fn change(to: &str, reason: Option<String>, when: Moment, late: Option<Late>) -> Change {
    Change { to: to.to_owned(), reason, when, late }
}

/// When something was really done and why it was entered late, where it was.
pub(super) fn late(work: &Work<'_>, entry: u64) -> Option<Late> {
    let stated = work.view.state.times.stated.get(&entry)?;
    Some(Late { done: write_time(&stated.done), reason: stated.reason.clone() })
}
