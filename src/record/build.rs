//! From the events of a closed run to its record.

use super::gather::{
    Deviations, FastenerGroups, Hazards, Holds, Notes, Pairs, People, Readings, Sittings, Steps, Values,
    Waits, clock, level_word, logs, shown,
};
use super::model::{self, FORMAT, Moment, Record, Seal};
use super::turn::{Turn, moment};
use super::{amounts, seal};
use crate::formula::World;

use crate::journal::{Digest, Pinned};
use crate::procedure::{self, Name};
use crate::run::{self, Book, Event, OpenItem, Stamp, Start, State, View, apply};

/// What is kept of a run.
#[derive(Clone, Copy, Debug)]
pub struct Kept<'run> {
    /// What it went by.
    pub book: &'run Book,
    /// Its events, in order.
    pub events: &'run [(Event, Stamp)],
    /// The lines of its journal, without their newlines.
    pub lines: &'run [String],
    /// The texts that it was started with.
    pub pinned: &'run Pinned,
}

/// The sealed record of a closed run, or everything that is still open.
pub fn build(kept: &Kept<'_>) -> Result<Record, Vec<OpenItem>> {
    let mut parts = Parts::default();
    let mut state = State::default();
    for (event, stamp) in kept.events {
        let after = apply(kept.book, state.clone(), event, stamp);
        let (event, late) = (event.itself(), event.late());
        parts.see(Turn { book: kept.book, event, late, stamp, before: &state, after: &after });
        state = after;
    }
    let (Some((start, began)), Some(closed)) = (&state.start, &state.closed) else {
        return Err(open_items(kept.book, &state));
    };
    let open = open_items(kept.book, &state);
    if !open.is_empty() {
        return Err(open);
    }
    let frame = Frame { kept, start, began: moment(began), closed: moment(closed) };
    Ok(seal::sealed(frame.record(View { book: kept.book, state: &state, now: &closed.at }, parts)))
}

fn open_items(book: &Book, state: &State) -> Vec<OpenItem> {
    let Some(last) = &state.last else {
        return vec![OpenItem::NotClosed];
    };
    View { book, state, now: &last.at }.unsealed_items()
}

/// The parts that are gathered event by event.
#[derive(Default)]
struct Parts {
    deviations: Deviations,
    readings: Readings,
    fasteners: FastenerGroups,
    pairs: Pairs,
    values: Values,
    holds: Holds,
    steps: Steps,
    hazards: Hazards,
    waits: Waits,
    notes: Notes,
    sittings: Sittings,
    people: People,
}

impl Parts {
    fn see(&mut self, turn: Turn<'_>) {
        self.deviations.see(turn);
        self.readings.see(turn);
        self.pairs.see(turn);
        self.values.see(turn);
        self.fasteners.see(turn);
        self.holds.see(turn);
        self.steps.see(turn);
        self.hazards.see(turn);
        self.waits.see(turn);
        self.notes.see(turn);
        self.sittings.see(turn);
        self.people.see(turn);
    }
}

/// What is the same from the first event to the last.
struct Frame<'run> {
    kept: &'run Kept<'run>,
    start: &'run Start,
    began: Moment,
    closed: Moment,
}

impl Frame<'_> {
    fn record(self, view: View<'_>, parts: Parts) -> Record {
        let book = self.kept.book;
        let all = parts.deviations.0;
        Record {
            format: FORMAT,
            run: self.start.run.clone(),
            engine: self.start.engine.clone(),
            answered_from: self.start.answered_from.clone(),
            result: result(all.len()),
            deviations: model::Deviations { count: all.len(), all },
            people: parts.people.named,
            vehicle: self.vehicle(view),
            procedure: self.procedure(),
            began: self.began,
            closed: self.closed,
            readings: parts.readings.finish(book),
            pairs: parts.pairs.finish(book),
            values: parts.values.finish(book),
            fasteners: parts.fasteners.finish(book),
            holds: parts.holds.finish(book),
            briefs: parts.people.briefs,
            looks: parts.people.looks,
            steps: parts.steps.finish(view),
            hazards: parts.hazards.0,
            waits: parts.waits.finish(book),
            logs: logs(view),
            clock: clock(view),
            notes: parts.notes.0,
            sittings: parts.sittings.finish(),
            journal: self.kept.lines.to_vec(),
            seal: Seal::default(),
        }
    }

    fn procedure(&self) -> model::Procedure {
        let (procedure, text) = (&self.kept.book.procedure, &self.kept.pinned.procedure);
        let header = procedure.header();
        model::Procedure {
            id: procedure.id().to_owned(),
            title: procedure.title().to_owned(),
            revision: header.revision.clone(),
            date: header.date.to_string(),
            author: header.author.clone(),
            scope: header.scope.clone(),
            level_of_use: level_word(header.level_of_use).to_owned(),
            sha256: Digest::of(text.as_bytes()).to_string(),
            text: text.clone(),
            linked: procedure.linked().iter().map(linked).collect(),
        }
    }

    fn vehicle(&self, view: View<'_>) -> model::Vehicle {
        let sheet = self.kept.book.sheet.as_ref();
        let text = self.kept.pinned.vehicle.as_ref();
        model::Vehicle {
            description: sheet.map(|sheet| sheet.vehicle().to_owned()),
            identification: sheet.map(|sheet| sheet.identification().to_owned()),
            odometer: view.state.odometer.as_ref().map(amounts::typed),
            odometer_before: view.state.taking.odometer.iter().map(replaced).collect(),
            sheet: text.map(|text| model::Sheet {
                sha256: Digest::of(text.as_bytes()).to_string(),
                text: text.clone(),
            }),
            values: view
                .book
                .procedure
                .vehicle()
                .names()
                .filter_map(|name| vehicle_value(view, name))
                .collect(),
        }
    }
}

fn linked(linked: &procedure::Linked) -> model::LinkedProcedure {
    let text = linked.text.text();
    model::LinkedProcedure {
        address: linked.address.clone(),
        title: linked.title.clone(),
        revision: linked.header.revision.clone(),
        date: linked.header.date.to_string(),
        author: linked.header.author.clone(),
        sha256: Digest::of(text.as_bytes()).to_string(),
        text: text.to_owned(),
    }
}

fn replaced(replaced: &run::Replaced) -> model::Replaced {
    model::Replaced {
        value: amounts::answer(&replaced.value),
        source: replaced.source.clone(),
        reason: replaced.reason.clone(),
        when: moment(&replaced.stamp),
    }
}

fn result(deviations: usize) -> String {
    match deviations {
        0 => "completed without deviation".to_owned(),
        1 => "completed with 1 deviation".to_owned(),
        more => format!("completed with {more} deviations"),
    }
}

/// A value of the vehicle: as it was entered, else as the sheet gives it.
fn vehicle_value(view: View<'_>, name: &Name) -> Option<model::VehicleValue> {
    let what = view.book.procedure.what(name).unwrap_or_default().to_owned();
    let name_text = name.to_string();
    if let Some(given) = view.state.vehicle.get(name) {
        return Some(model::VehicleValue {
            name: name_text,
            what,
            value: amounts::answer(&given.value),
            source: given.source.clone(),
            entered: Some(moment(&given.stamp)),
            before: view.state.taking.vehicle.get(name).into_iter().flatten().map(replaced).collect(),
        });
    }
    let entry = view.book.sheet.as_ref()?.value(name.as_str())?;
    Some(model::VehicleValue {
        name: name_text,
        what,
        value: model::Answer::Text(shown(&view.known().value_of(name.as_str())?)),
        source: entry.source.clone(),
        entered: None,
        before: Vec::new(),
    })
}
