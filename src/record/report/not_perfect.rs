//! What was not as it should be, and what became of each.

use super::deviations::{disposition, name};
use super::logs::late_rows;
use super::said::{address, amount, answer};
use super::trail::Trail;
use super::verdict::{self, fails};
use crate::print::{Block, Section};
use crate::record::model::{Attempt, Hold, Reading, Record};

/// More than these, deviations apart, stand under their own heading only.
const MOST: usize = 12;

pub(super) fn section(record: &Record, _: &mut Trail) -> Section {
    let mut items: Vec<String> = record
        .deviations
        .all
        .iter()
        .map(|deviation| {
            format!(
                "{}: {}. Why: {}. Disposition: {}.",
                name(deviation),
                end(&deviation.departs),
                end(&deviation.reason),
                end(&disposition(deviation))
            )
        })
        .collect();
    let others: Vec<String> = readings(record)
        .chain(values(record))
        .chain(fasteners(record))
        .chain(record.holds.iter().flat_map(hold))
        .chain(passes(record))
        .chain(limits(record))
        .chain(logs(record))
        .collect();
    let more = others.len().saturating_sub(MOST);
    items.extend(others.into_iter().take(MOST));
    if more > 0 {
        items.push(format!("... and {more} more, each in its place below."));
    }
    let block = if items.is_empty() {
        Block::Words("Nothing failed, and nothing departed from the procedure.".to_owned())
    } else {
        Block::Items(items)
    };
    Section::first("What was not as it should be, and what became of it", vec![block])
}

/// Without the full stop that follows.
fn end(words: &str) -> &str {
    words.trim_end_matches('.')
}

fn readings(record: &Record) -> impl Iterator<Item = String> {
    record.readings.iter().flat_map(|reading| {
        reading.attempts.iter().enumerate().filter_map(move |(index, attempt)| {
            // What was gone on with is a deviation, and stands there.
            let judged =
                attempt.judged.as_ref().filter(|judged| fails(judged) && attempt.deviation.is_none())?;
            let place = address(&reading.step, &reading.place);
            Some(format!(
                "{place} {}: {}; {}. {}",
                reading.what,
                answer(&attempt.answer),
                end(&verdict::words(judged)),
                became(reading, index, attempt)
            ))
        })
    })
}

fn became(reading: &Reading, index: usize, attempt: &Attempt) -> String {
    let Some(aside) = &attempt.set_aside else {
        return "It stands as it is.".to_owned();
    };
    let next = reading.attempts.get(index + 1).map(|next| {
        let verdict = next.judged.as_ref().map(|judged| format!(" ({})", judged.verdict)).unwrap_or_default();
        format!("; then {}{verdict}", answer(&next.answer))
    });
    format!("Taken again: {}{}.", end(&aside.reason), next.unwrap_or_default())
}

fn values(record: &Record) -> impl Iterator<Item = String> {
    record.values.iter().filter_map(|value| {
        let result =
            value.result.as_ref().filter(|result| fails(&result.judged) && result.deviation.is_none())?;
        let shown = result.result.as_ref().map_or_else(|| "no result".to_owned(), amount);
        let place = address(&value.step, &value.place);
        let words = verdict::words(&result.judged);
        Some(format!("{place} {}: {shown}; {}.", value.what, end(&words)))
    })
}

fn fasteners(record: &Record) -> impl Iterator<Item = String> {
    record.fasteners.iter().flat_map(|group| {
        let places =
            group.stages.iter().flat_map(|stage| stage.places.iter().map(move |place| (stage, place)));
        places.flat_map(move |(stage, place)| {
            place.acts.iter().filter_map(move |act| {
                let judged = act.judged.as_ref().filter(|judged| fails(judged))?;
                let reached = act.reached.as_ref().map(|reached| format!("{}; ", amount(&reached.typed)));
                Some(format!(
                    "{} {}, place {}, {}: {}{}. In the end: {}.",
                    address(&group.step, &group.place),
                    group.what,
                    place.position,
                    stage.what,
                    reached.unwrap_or_default(),
                    end(&verdict::words(judged)),
                    place.state
                ))
            })
        })
    })
}

/// What was found untrue, and that it had to be verified again.
fn hold(hold: &Hold) -> Vec<String> {
    let untrue = hold.verifications.iter().flat_map(|one| &one.untrue);
    let mut said: Vec<String> = untrue
        .map(|untrue| {
            format!(
                "{} {}: not true at first: {}; instead: {}.",
                hold.step,
                hold.what,
                end(&untrue.statement),
                end(&untrue.instead)
            )
        })
        .collect();
    let again = hold.verifications.iter().filter_map(|one| one.again_because.as_deref());
    said.extend(
        again.map(|why| format!("{} {}: verified again, because: {}.", hold.step, hold.what, end(why))),
    );
    said
}

fn passes(record: &Record) -> impl Iterator<Item = String> {
    record.repeats.iter().flat_map(|repeat| {
        let not = repeat.passes.iter().filter(|pass| !pass.counts && pass.ended.is_some());
        not.map(|pass| {
            let why = pass.reason.as_ref().map(|why| format!(": {}", end(why))).unwrap_or_default();
            let how = if pass.end == "counts" {
                "does not count, the count began anew after it"
            } else {
                &pass.end
            };
            format!("{}, {}: {how}{why}.", repeat.what, pass.pass)
        })
    })
}

fn limits(record: &Record) -> impl Iterator<Item = String> {
    record.limits_in_force.iter().flat_map(|limit| {
        let broke = limit.readings.iter().filter_map(|reading| reading.broke.as_ref());
        broke.map(|broke| format!("{}: {}.", limit.what, end(broke)))
    })
}

fn logs(record: &Record) -> impl Iterator<Item = String> {
    let late = record.logs.iter().map(|log| (log, late_rows(log)));
    late.filter(|(_, late)| !late.is_empty())
        .map(|(log, late)| format!("LATE: {}: {}.", log.what, late.join("; ")))
}
