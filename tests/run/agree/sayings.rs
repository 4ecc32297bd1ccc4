//! What status, record and screen say of a run, occurrence by occurrence, in one form.

use std::collections::BTreeMap;

use bayhand::cli::status_json;
use bayhand::journal::Pinned;
use bayhand::procedure::Step;
use bayhand::record::model::{Answer, Judged, Place, Record};
use bayhand::record::{Kept, build};
use bayhand::run::View;
use bayhand::terminal::{Manner, Text, paint, standing, step_in_full};
use serde_json::Value;

use super::super::drive::Drive;
use crate::session::stage::words_of;

/// That all say the same, or what one of them says otherwise.
type Agreed = Result<(), String>;

/// What is said of one occurrence of a step.
#[derive(Clone, Debug, PartialEq)]
pub struct Said {
    number: String,
    turns: Vec<u64>,
    pass: Option<String>,
    status: String,
    /// By the name of the result: its value, and its verdict in words.
    results: BTreeMap<String, (String, String)>,
}

/// The record of a run as it stands, also of one that is not closed.
pub fn record_of(drive: &Drive) -> Record {
    let pinned = Pinned { procedure: String::new(), linked: Vec::new(), vehicle: None };
    let kept = Kept { book: &drive.book, events: &drive.events, lines: &[], pinned: &pinned };
    build(&kept).unwrap_or_else(|open| panic!("no record: {open:?}"))
}

/// The run at its last entry, which is when its record is made.
fn at_last(drive: &Drive) -> Drive {
    let now = drive.events.last().map_or_else(|| drive.now.clone(), |(_, stamp)| stamp.at.clone());
    Drive { now, ..drive.clone() }
}

/// Status and record name the same occurrences, and say the same of each.
pub fn agree(drive: &Drive) -> Agreed {
    let drive = at_last(drive);
    let (status, record) = (by_status(drive.view()), by_record(&record_of(&drive)));
    for (status, record) in status.iter().zip(&record) {
        if status != record {
            return Err(format!("status says {status:#?}\nthe record says {record:#?}"));
        }
    }
    if status.len() == record.len() {
        return Ok(());
    }
    Err(format!("status tells of {} occurrences, the record of {}", status.len(), record.len()))
}

/// As `bayhand status --json` says it.
pub fn by_status(view: View<'_>) -> Vec<Said> {
    let json = status_json("run", view, &[]).expect("a status");
    let all: Value = serde_json::from_str(&json).expect("JSON");
    all["steps"].as_array().expect("steps").iter().map(one_of_status).collect()
}

fn one_of_status(step: &Value) -> Said {
    let text = |value: &Value| value.as_str().unwrap_or_default().to_owned();
    let results = step["results"].as_array().expect("results").iter();
    let results =
        results.map(|result| (text(&result["name"]), (text(&result["shown"]), text(&result["verdict"]))));
    Said {
        number: text(&step["number"]),
        turns: step["turns"].as_array().expect("turns").iter().filter_map(Value::as_u64).collect(),
        pass: step["pass"].as_str().map(str::to_owned),
        status: text(&step["status"]),
        results: results.collect(),
    }
}

/// As the record says it: of a reading its last attempt.
fn by_record(record: &Record) -> Vec<Said> {
    let mut all: Vec<Said> =
        record.steps.iter().map(|step| said(&step.number, &step.place, &step.state)).collect();
    let readings = record.readings.iter().filter_map(|reading| {
        let last = reading.attempts.last()?;
        let judged = last.judged.as_ref()?;
        Some((&reading.name, &reading.step, &reading.place, shown(&last.answer), judged))
    });
    let values = record.values.iter().filter_map(|value| {
        let result = value.result.as_ref()?;
        let shown = result.result.as_ref().map(|amount| amount.shown.clone()).unwrap_or_default();
        Some((&value.name, &value.step, &value.place, shown, &result.judged))
    });
    let results: Vec<(&String, &String, &Place, String, &Judged)> = readings.chain(values).collect();
    for (name, step, place, shown, judged) in results {
        let turns = turns(place);
        let mut meant = all.iter_mut().filter(|said| said.number == *step && said.turns == turns);
        let meant = meant.next().unwrap_or_else(|| panic!("{name} is of no step: {step} {place:?}"));
        meant.results.insert(name.clone(), (shown, judged.words.clone()));
    }
    all
}

fn said(number: &str, place: &Place, status: &str) -> Said {
    Said {
        number: number.to_owned(),
        turns: turns(place),
        pass: place.pass.clone(),
        status: status.to_owned(),
        results: BTreeMap::new(),
    }
}

fn turns(place: &Place) -> Vec<u64> {
    place.turns.iter().map(|turn| u64::from(*turn)).collect()
}

/// An answer as a person reads it.
fn shown(answer: &Answer) -> String {
    match answer {
        Answer::Quantity(entry) => match &entry.asked {
            Some(asked) => format!("{} = {}", entry.typed.shown, asked.amount.shown),
            None => entry.typed.shown.clone(),
        },
        Answer::Choice(text) | Answer::Text(text) | Answer::Date(text) | Answer::Instead(text) => {
            text.clone()
        }
        Answer::List(items) => items.join(", "),
        Answer::File(file) => format!("{} ({} bytes)", file.name, file.size),
    }
}

/// What the screen shows of each step at present is what status says of its present occurrence.
pub fn screen_agrees(drive: &Drive) -> Agreed {
    let view = drive.view();
    let (all, said) = (words(&standing(view)), by_status(view));
    let steps = view.unrolled().into_iter().zip(said);
    for (at, said) in steps.filter(|(at, _)| view.is_present(*at)) {
        let line = format!("{} {}: ", said.number, said.status);
        let awaited = format!("{} {}, ", said.number, said.status);
        if !all.contains(&line) && !all.contains(&awaited) {
            return Err(format!("the screen does not say `{line}`: {all}"));
        }
        shows(view, at.step, &said)?;
    }
    Ok(())
}

/// A step in full shows each of its results with its verdict, and no other.
fn shows(view: View<'_>, step: &Step, said: &Said) -> Agreed {
    let full = words(&step_in_full(view, step));
    for name in step.takes.iter().chain(&step.computes) {
        let what = format!(" {}: ", view.book.procedure.called(name));
        match said.results.get(name.as_str()) {
            Some((value, verdict)) => {
                let shown = full.contains(value.trim()) && full.contains(&words_of(verdict));
                if !full.contains(&what) || !shown {
                    return Err(format!("the screen does not say `{what}{value}: {verdict}`: {full}"));
                }
            }
            None if full.contains(&what) => {
                return Err(format!("only the screen says what {name} is: {full}"));
            }
            None => {}
        }
    }
    Ok(())
}

fn words(text: &Text) -> String {
    words_of(&paint(text, 10_000, Manner::Lines))
}
