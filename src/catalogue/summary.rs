//! What a listing tells of a closed run.

use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};

use crate::record::{self, Kept};
use crate::session::StoredRun;

/// A closed run in short; everything in it stands in its record too.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Summary {
    /// The procedure's file without the ending.
    pub procedure: String,
    /// Its title.
    pub title: String,
    /// Its revision.
    pub revision: String,
    /// The vehicle, as its people call it.
    pub vehicle: Option<String>,
    /// What identifies the vehicle.
    pub identification: Option<String>,
    /// The odometer, as typed with its unit.
    pub odometer: Option<String>,
    /// When it began, RFC 3339 with offset.
    pub began: String,
    /// When it was closed.
    pub closed: String,
    /// How it came out, in words.
    pub result: String,
    /// The people, each once.
    pub people: Vec<String>,
    /// What each deviation departs from, and why.
    pub deviations: Vec<String>,
    /// What is written on the instruments that were used, and what they are.
    pub instruments: Vec<String>,
    /// The parts and materials of the procedure.
    pub parts: Vec<String>,
    /// The job that it belongs to.
    pub job: Option<String>,
    /// The seal of its record.
    pub seal: String,
}

impl Summary {
    /// Of a run that is closed and has a record.
    pub(super) fn of(run: &StoredRun) -> Option<Self> {
        run.state.closed.as_ref()?;
        let lines = run.lines();
        let kept = Kept { book: &run.book, events: &run.events, lines: &lines, pinned: &run.pinned };
        let record = record::build(&kept).ok()?;
        let people: BTreeSet<&str> = record.people.iter().map(|person| person.name.as_str()).collect();
        let deviations = record.deviations.all.iter();
        let tools =
            record.readings.iter().filter_map(|reading| Some(reading.instrument.as_ref()?.what.clone()));
        let named = record.readings.iter().flat_map(|reading| &reading.attempts);
        let named = named.filter_map(|attempt| Some(attempt.instrument.as_ref()?.identity.clone()));
        let instruments: BTreeSet<String> = tools.chain(named).collect();
        let procedure = &run.book.procedure;
        let supplies = procedure.parts().iter().chain(procedure.materials().iter());
        Some(Self {
            procedure: record.procedure.id.clone(),
            title: record.procedure.title.clone(),
            revision: record.procedure.revision.clone(),
            vehicle: record.vehicle.description.clone(),
            identification: record.vehicle.identification.clone(),
            odometer: run.state.odometer.as_ref().map(|entry| entry.typed.to_string()),
            began: record.began.at.clone(),
            closed: record.closed.as_ref().map(|closed| closed.at.clone())?,
            result: record.result.clone(),
            people: people.into_iter().map(str::to_owned).collect(),
            deviations: deviations.map(|one| format!("{}: {}", one.departs, one.reason)).collect(),
            instruments: instruments.into_iter().collect(),
            parts: supplies.map(|(_, supply)| supply.what.clone()).collect(),
            job: run.start().and_then(|start| start.job.clone()),
            seal: record.seal.sha256,
        })
    }
}
