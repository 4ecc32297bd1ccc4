//! Every time that a reading was taken in a run.

use std::collections::BTreeMap;

use super::model::Taken;
use crate::record::judging::is_no_good;
use crate::record::model::{Answer, Attempt, Reading, Record};

/// The readings of a record by their names, each with what it is.
pub fn names(record: &Record) -> BTreeMap<&str, &str> {
    let taken = record.readings.iter().filter(|reading| !reading.attempts.is_empty());
    taken.map(|reading| (reading.name.as_str(), reading.what.as_str())).collect()
}

/// Every attempt at a reading of this name in a record, in order.
pub fn taken(record: &Record, name: &str) -> Vec<Taken> {
    let meant = record.readings.iter().filter(|reading| reading.name == name);
    meant
        .flat_map(|reading| reading.attempts.iter().map(move |attempt| one(record, reading, attempt)))
        .collect()
}

fn one(record: &Record, reading: &Reading, attempt: &Attempt) -> Taken {
    let judged = attempt.judged.as_ref();
    let verdict = judged.map(|judged| judged.verdict.clone());
    let instrument = reading.instrument.as_ref();
    Taken {
        at: attempt.late.as_ref().map_or_else(|| attempt.when.at.clone(), |late| late.done.clone()),
        odometer: record.vehicle.odometer.as_ref().map(|odometer| odometer.typed.clone()),
        run: record.run.clone(),
        closed: record.closed.is_some(),
        procedure: record.procedure.id.clone(),
        step: reading.step.clone(),
        pass: reading.place.pass.clone(),
        what: reading.what.clone(),
        occasion: occasion(record, &reading.name).map(str::to_owned),
        shown: crate::record::said(&attempt.answer),
        amount: match &attempt.answer {
            Answer::Quantity(typed) => {
                Some(typed.asked.as_ref().map_or(&typed.typed, |asked| &asked.amount).clone())
            }
            _ => None,
        },
        in_unit: None,
        lower: judged.and_then(|judged| judged.lower.clone()),
        upper: judged.and_then(|judged| judged.upper.clone()),
        fails: verdict.as_deref().is_some_and(is_no_good),
        verdict,
        words: judged.map(|judged| judged.words.clone()),
        instrument: instrument.map(|instrument| instrument.what.clone()),
        identity: attempt.instrument.as_ref().map(|used| used.identity.clone()),
        aside: aside(reading, attempt),
        entry: attempt.when.entry,
    }
}

fn aside(reading: &Reading, attempt: &Attempt) -> Option<String> {
    let aside = reading.place.aside.as_ref().map(|aside| format!("{}: {}", aside.how, aside.reason));
    aside.or_else(|| attempt.set_aside.as_ref().map(|again| format!("taken again: {}", again.reason)))
}

/// Whether it is what was found before an adjustment, or what was left after it.
fn occasion(record: &Record, name: &str) -> Option<&'static str> {
    let is = |end: &Option<crate::record::model::PairEnd>| end.as_ref().is_some_and(|end| end.name == name);
    let found = record.pairs.iter().any(|pair| is(&pair.as_found)).then_some("as found");
    found.or_else(|| record.pairs.iter().any(|pair| is(&pair.as_left)).then_some("as left"))
}
