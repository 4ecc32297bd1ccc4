//! From the runs of a job to its record.

use super::balances::balances;
use super::dues::dues;
use super::fasteners::fasteners;
use super::hours::{hours, time};
use super::model::{Deviation, FORMAT, Found, HandedOn, JobRecord, LooseEnd, Protection, Run, Vehicle};
use crate::job::handed::is_handed;
use crate::job::inherited::{JobEnd, loose_ends};
use crate::job::model::Job;
use crate::job::standing::{newest, time_at};
use crate::journal::write_time;
use crate::record::model::{self, Moment, Record, Seal, VehicleValue};
use crate::record::{Kept, sealed};
use crate::run::InheritedProtection;
use crate::session::StoredRun;

/// What is kept of a job.
#[derive(Clone, Copy, Debug)]
pub struct KeptJob<'k> {
    /// The job.
    pub job: &'k Job,
    /// What its runs name.
    pub tag: &'k str,
    /// Its runs, the oldest first.
    pub runs: &'k [StoredRun],
    /// The sealed record of each; none of one that is closed although something in it is open.
    pub records: &'k [Option<Record>],
    /// What may belong to it and could not be read, with the reasons.
    pub unread: &'k [String],
}

/// The sealed record of a job. What is open stands in it.
pub fn build(kept: &KeptJob<'_>) -> JobRecord {
    let recorded = kept.runs.iter().zip(kept.records);
    let recorded: Vec<(&StoredRun, &Record)> =
        recorded.filter_map(|(run, record)| Some((run, record.as_ref()?))).collect();
    let records = || recorded.iter().map(|(_, record)| *record);
    let runs: Vec<Run> = recorded.iter().map(|(stored, record)| run(stored, record)).collect();
    let (open, unread) = (open(kept, records()), unread(kept, &runs));
    let sheet = kept.runs.iter().rev().find_map(|run| run.book.sheet.as_ref());
    let standing = crate::job::protections(kept.runs);
    let made = JobRecord {
        format: FORMAT,
        job: kept.tag.to_owned(),
        title: kept.job.title.clone(),
        what: kept.job.what.clone(),
        result: result(kept, &runs, open.is_empty() && unread.is_empty()),
        open,
        unread,
        vehicle: sheet.map(|sheet| Vehicle {
            description: sheet.vehicle().to_owned(),
            identification: sheet.identification().to_owned(),
        }),
        balances: balances(kept.job, kept.runs),
        hours: hours(kept.runs),
        fasteners: records().flat_map(fasteners).collect(),
        protections: records().flat_map(|record| protections(&standing, record)).collect(),
        loose_ends: loose_ends(kept.runs).into_iter().map(loose_end).collect(),
        dues: records().filter(|record| is_newest(kept, record)).flat_map(dues).collect(),
        handed_on: records().flat_map(handed_on).collect(),
        runs,
        seal: Seal::default(),
    };
    let seal = sealed(&made);
    JobRecord { seal, ..made }
}

/// Whether a run is the one of its procedure that counts.
fn is_newest(kept: &KeptJob<'_>, record: &Record) -> bool {
    newest(kept.runs, &record.procedure.id).is_some_and(|run| run.id.as_str() == record.run)
}

/// The record of a run; one that is closed although something in it is open has none.
pub fn record_of(run: &StoredRun) -> Option<Record> {
    let lines = run.lines();
    crate::record::build(&Kept { book: &run.book, events: &run.events, lines: &lines, pinned: &run.pinned })
        .ok()
}

/// What could not be read, and runs that have no record.
fn unread(kept: &KeptJob<'_>, told: &[Run]) -> Vec<String> {
    let ids = kept.runs.iter().map(|run| run.id.as_str());
    let without = ids.filter(|id| told.iter().all(|run| run.run != **id));
    let without = without.map(|id| format!("run {id} is closed although something in it is open"));
    kept.unread.iter().cloned().chain(without).collect()
}

fn result(kept: &KeptJob<'_>, runs: &[Run], is_complete: bool) -> String {
    let done = kept.job.procedures.iter().filter(|one| is_done(kept, &one.id)).count();
    let deviations: usize = runs.iter().map(|run| run.deviations.len()).sum();
    let of = format!("{done} of {} procedures closed", kept.job.procedures.len());
    let how = if is_complete { "complete" } else { "not finished" };
    let deviations = match deviations {
        0 => "no deviation".to_owned(),
        1 => "1 deviation".to_owned(),
        many => format!("{many} deviations"),
    };
    format!("{how}: {of}, {deviations}")
}

fn is_done(kept: &KeptJob<'_>, id: &str) -> bool {
    newest(kept.runs, id).is_some_and(|run| run.state.closed.is_some())
}

/// What a person still has to see to.
fn open<'r>(kept: &KeptJob<'_>, records: impl Iterator<Item = &'r Record>) -> Vec<String> {
    let not_begun = kept.job.procedures.iter().filter(|one| newest(kept.runs, &one.id).is_none());
    let not_begun = not_begun.map(|one| format!("{}: not begun", one.title));
    let not_closed = records.filter_map(|record| {
        let open = record.not_finished.as_ref()?;
        let (title, run, how) = (&record.procedure.title, &record.run, &open.how);
        Some(format!("{title}: run {run} is {how}, {} steps open", open.steps_open))
    });
    not_closed.chain(not_begun).collect()
}

fn run(stored: &StoredRun, record: &Record) -> Run {
    let last = stored.events.last().map(|(_, stamp)| Moment { entry: stamp.seq, at: write_time(&stamp.at) });
    let people = record.people.iter().map(|person| format!("{} ({})", person.name, person.role));
    let taken = record.readings.iter().filter(|reading| !reading.attempts.is_empty()).count();
    let computed = record.values.iter().filter(|value| value.result.is_some()).count();
    Run {
        run: record.run.clone(),
        procedure: record.procedure.id.clone(),
        title: record.procedure.title.clone(),
        revision: record.procedure.revision.clone(),
        engine: record.engine.clone(),
        answered_from: record.answered_from.clone(),
        began: record.began.clone(),
        closed: record.closed.clone(),
        last: last.unwrap_or_else(|| record.began.clone()),
        time: time(time_at(stored)),
        people: people.collect(),
        odometer: record.vehicle.odometer.as_ref().map(|odometer| odometer.typed.shown.clone()),
        result: record.result.clone(),
        results: taken + computed,
        found: record
            .readings
            .iter()
            .flat_map(found)
            .chain(record.values.iter().filter_map(computed_badly))
            .collect(),
        deviations: record.deviations.all.iter().map(deviation).collect(),
        seal: record.seal.sha256.clone(),
    }
}

fn deviation(deviation: &model::Deviation) -> Deviation {
    Deviation {
        number: deviation.number,
        step: deviation.step.clone(),
        departs: deviation.departs.clone(),
        reason: deviation.reason.clone(),
        disposition: deviation.disposition.clone(),
        when: deviation.when.clone(),
    }
}

fn is_bad(verdict: &str) -> bool {
    ["fail", "conditional fail", "not good"].contains(&verdict)
}

/// Each attempt at a reading that failed, and what became of it.
fn found(reading: &model::Reading) -> Vec<Found> {
    let shown = |attempt: &model::Attempt| crate::record::said(&attempt.answer);
    let verdict = |attempt: &model::Attempt| attempt.judged.as_ref().map(|judged| judged.verdict.clone());
    let failed = reading.attempts.iter().enumerate().filter_map(|(place, attempt)| {
        let judged = attempt.judged.as_ref().filter(|judged| is_bad(&judged.verdict))?;
        let later = reading.attempts.get(place + 1);
        let then = match (later, attempt.deviation, &reading.place.aside) {
            (Some(later), ..) => {
                let verdict = verdict(later).unwrap_or_else(|| "not judged".to_owned());
                format!("taken again: {}, {verdict}", shown(later))
            }
            (None, Some(deviation), _) => format!("deviation {deviation}"),
            (None, None, Some(aside)) => aside.to_string(),
            (None, None, None) => "the procedure says what follows".to_owned(),
        };
        Some(Found {
            name: reading.name.clone(),
            what: reading.what.clone(),
            step: reading.step.clone(),
            pass: reading.place.pass.clone(),
            found: shown(attempt),
            why: judged.words.clone(),
            then,
            when: Some(attempt.when.clone()),
        })
    });
    failed.collect()
}

fn computed_badly(value: &model::Value) -> Option<Found> {
    let result = value.result.as_ref().filter(|result| is_bad(&result.judged.verdict))?;
    let then = match (result.deviation, &value.place.aside) {
        (Some(deviation), _) => format!("deviation {deviation}"),
        (None, Some(aside)) => aside.to_string(),
        (None, None) => "the procedure says what follows".to_owned(),
    };
    Some(Found {
        name: value.name.clone(),
        what: value.what.clone(),
        step: value.step.clone(),
        pass: value.place.pass.clone(),
        found: result.result.as_ref().map(|amount| amount.shown.clone()).unwrap_or_default(),
        why: result.judged.words.clone(),
        then,
        when: None,
    })
}

/// What protected people in a run, from the first release to its end.
fn protections(standing: &[InheritedProtection], record: &Record) -> Vec<Protection> {
    let is_handed_on = |what: &str| {
        let is_left = record.left_in_force.iter().any(|left| left.what == what);
        is_left && !standing.iter().any(|one| one.run == record.run && one.what == what)
    };
    let told = record.holds.iter().filter_map(|hold| {
        let what = hold.protection.clone()?;
        let first = hold.verifications.iter().find(|verified| !verified.released.is_empty())?;
        let ended = hold.verifications.last().and_then(|last| last.ended.as_ref());
        Some(Protection {
            run: record.run.clone(),
            by: first.released.iter().map(|release| release.name.clone()).collect(),
            since: first.released.last()?.when.clone(),
            over: ended
                .map(|ended| ended.why.clone())
                .or_else(|| is_handed_on(&what).then(|| "handed on to a later run".to_owned())),
            what,
            until: ended.map(|ended| ended.when.clone()),
        })
    });
    told.collect()
}

/// What a run began with that an earlier one had found.
fn handed_on(record: &Record) -> impl Iterator<Item = HandedOn> {
    let handed =
        record.vehicle.values.iter().filter(|value| is_handed(&value.source) && value.entered.is_none());
    handed.map(|value: &VehicleValue| HandedOn {
        to: record.run.clone(),
        name: value.name.clone(),
        what: value.what.clone(),
        value: crate::record::said(&value.value),
        from: value.source.clone(),
    })
}

fn loose_end(end: JobEnd) -> LooseEnd {
    let (became, became_in, became_entry) = match end.became {
        Some((became, run, entry)) => (Some(became.words()), Some(run), Some(entry)),
        None => (None, None, None),
    };
    LooseEnd {
        run: end.end.run,
        what: end.end.what,
        left_at: end.left_at,
        left: end.left.map(|(entry, at)| Moment { entry, at: write_time(&at) }),
        became,
        became_in,
        became_entry,
    }
}
