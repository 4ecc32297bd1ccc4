//! Everything in a run that has a history: readings, computed values, counts.

use super::model::Taken;
use crate::record::counted::{Counted, counted, plain};
use crate::record::judging::is_no_good;
use crate::record::model::{Answer, Attempt, Moment, Reading, Record, Repeat, Step, Value};

/// Every attempt at every reading, every computed value that was worked out, and every count of a record, each with its
/// name: that in the procedure, of what is counted over the whole run what it is.
pub fn taken(record: &Record) -> Vec<(String, Taken)> {
    let readings = record.readings.iter().flat_map(|reading| {
        reading.attempts.iter().map(move |attempt| (reading.name.clone(), read(record, reading, attempt)))
    });
    let values =
        record.values.iter().filter_map(|value| Some((value.name.clone(), worked_out(record, value)?)));
    let repeats =
        record.repeats.iter().filter_map(|repeat| Some((repeat.name.clone(), passes(record, repeat)?)));
    let counts = counted(record);
    let counts = counts.iter().map(|counted| (counted.what.to_owned(), over_the_run(record, counted)));
    readings.chain(values).chain(repeats).chain(counts).collect()
}

/// What is the same for all of a record.
fn of_run(record: &Record, kind: &str, what: &str) -> Taken {
    Taken {
        kind: kind.to_owned(),
        odometer: record.vehicle.odometer.as_ref().map(|odometer| odometer.typed.clone()),
        run: record.run.clone(),
        closed: record.closed.is_some(),
        procedure: record.procedure.id.clone(),
        what: what.to_owned(),
        ..Taken::default()
    }
}

fn read(record: &Record, reading: &Reading, attempt: &Attempt) -> Taken {
    let judged = attempt.judged.as_ref();
    let verdict = judged.map(|judged| judged.verdict.clone());
    let instrument = reading.instrument.as_ref();
    Taken {
        at: attempt.late.as_ref().map_or_else(|| attempt.when.at.clone(), |late| late.done.clone()),
        step: Some(reading.step.clone()),
        pass: reading.place.pass.clone(),
        occasion: occasion(record, &reading.name).map(str::to_owned),
        shown: crate::record::said(&attempt.answer),
        amount: match &attempt.answer {
            Answer::Quantity(typed) => {
                Some(typed.asked.as_ref().map_or(&typed.typed, |asked| &asked.amount).clone())
            }
            _ => None,
        },
        lower: judged.and_then(|judged| judged.lower.clone()),
        upper: judged.and_then(|judged| judged.upper.clone()),
        fails: verdict.as_deref().is_some_and(is_no_good),
        verdict,
        words: judged.map(|judged| judged.words.clone()),
        instrument: instrument.map(|instrument| instrument.what.clone()),
        identity: attempt.instrument.as_ref().map(|used| used.identity.clone()),
        aside: aside(reading, attempt),
        entry: Some(attempt.when.entry),
        ..of_run(record, "reading", &reading.what)
    }
}

fn aside(reading: &Reading, attempt: &Attempt) -> Option<String> {
    let aside = reading.place.aside.as_ref().map(ToString::to_string);
    aside.or_else(|| attempt.set_aside.as_ref().map(|again| format!("taken again: {}", again.reason)))
}

/// Whether it is what was found before an adjustment, or what was left after it.
fn occasion(record: &Record, name: &str) -> Option<&'static str> {
    let is = |end: &Option<crate::record::model::PairEnd>| end.as_ref().is_some_and(|end| end.name == name);
    let found = record.pairs.iter().any(|pair| is(&pair.as_found)).then_some("as found");
    found.or_else(|| record.pairs.iter().any(|pair| is(&pair.as_left)).then_some("as left"))
}

/// A computed value has the time and the entry of the step that it is judged at.
fn worked_out(record: &Record, value: &Value) -> Option<Taken> {
    let result = value.result.as_ref()?;
    let is_its = |step: &&Step| {
        step.number == value.step && step.place.turns == value.place.turns && step.from == value.from
    };
    let done = record.steps.iter().find(is_its).and_then(|step| step.changes.last());
    let (at, entry) = match done {
        Some(done) => (done.late.as_ref().map_or(&done.when.at, |late| &late.done), Some(done.when.entry)),
        None => (&so_far(record).at, None),
    };
    let judged = &result.judged;
    Some(Taken {
        at: at.clone(),
        step: Some(value.step.clone()),
        pass: value.place.pass.clone(),
        shown: result.result.as_ref().map_or_else(|| "no result".to_owned(), |amount| amount.shown.clone()),
        amount: result.result.clone(),
        lower: judged.lower.clone(),
        upper: judged.upper.clone(),
        fails: is_no_good(&judged.verdict),
        verdict: Some(judged.verdict.clone()),
        words: Some(judged.words.clone()),
        trace: Some(result.trace.clone()),
        aside: value.place.aside.as_ref().map(ToString::to_string),
        entry,
        ..of_run(record, "computed value", &value.what)
    })
}

/// How many passes of a repeat came to their end, whether they count or not.
fn passes(record: &Record, repeat: &Repeat) -> Option<Taken> {
    let ended: Vec<&Moment> = repeat.passes.iter().filter_map(|pass| pass.ended.as_ref()).collect();
    let last = ended.last()?;
    let count = plain(ended.len());
    Some(Taken {
        at: last.at.clone(),
        pass: repeat.place.pass.clone(),
        shown: count.shown.clone(),
        amount: Some(count),
        verdict: Some(repeat.verdict.clone()),
        aside: repeat.place.aside.as_ref().map(ToString::to_string),
        entry: Some(last.entry),
        ..of_run(record, "count", &format!("{}, passes", repeat.what))
    })
}

fn over_the_run(record: &Record, counted: &Counted) -> Taken {
    let until = so_far(record);
    Taken {
        at: until.at.clone(),
        shown: counted.amount.as_ref().map_or(&counted.words, |amount| &amount.shown).clone(),
        amount: counted.amount.clone(),
        entry: Some(until.entry),
        ..of_run(record, "count", counted.what)
    }
}

/// The last moment that the record knows of.
fn so_far(record: &Record) -> &Moment {
    let sitting = record.sittings.last().map(|sitting| &sitting.ended.when);
    record.closed.as_ref().or(sitting).unwrap_or(&record.began)
}
