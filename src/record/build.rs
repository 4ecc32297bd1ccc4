//! From what a run has come to to its record.

use std::collections::BTreeMap;
use std::convert::Infallible;

use super::gather::{self, Notes, Work, moment, shown};
use super::model::{self, FORMAT, Moment, Outcome, Record, Seal};
use super::{amounts, seal};
use crate::formula::World;
use crate::journal::{Digest, Pinned};
use crate::procedure::{self, Name};
use crate::run::{self, Book, Event, Memo, OpenItem, Stamp, Start, State, View, apply};

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

/// The sealed record of a run. One that is closed although something is open has none: that is what is returned.
pub fn build(kept: &Kept<'_>) -> Result<Record, Vec<OpenItem>> {
    let walked = walked(kept, |_, _, _| Ok::<(), Infallible>(()));
    let Ok(walked) = walked;
    walked.record(kept).map(with_seal)
}

/// The record with the seal that belongs on it.
pub(super) fn with_seal(record: Record) -> Record {
    Record { seal: seal::sealed(&record), ..record }
}

/// What the record of a run would be, not sealed, and what is open in it although the run is closed. Nothing where the run
/// has not begun.
pub(super) fn whatever_is_open(kept: &Kept<'_>) -> Option<(Record, Vec<OpenItem>)> {
    let walked = walked(kept, |_, _, _| Ok::<(), Infallible>(()));
    let Ok(walked) = walked;
    walked.whatever_is_open(kept)
}

/// What a run has come to, and its remarks in the words in which each was told.
#[derive(Default)]
pub(super) struct Walked {
    state: State,
    notes: Notes,
}

/// Goes through the events of a run; each is looked at in the state before it.
pub(super) fn walked<E>(
    kept: &Kept<'_>,
    mut look: impl FnMut(&State, &Event, &Stamp) -> Result<(), E>,
) -> Result<Walked, E> {
    let Walked { mut state, mut notes } = Walked::default();
    for (event, stamp) in kept.events {
        look(&state, event, stamp)?;
        state = apply(kept.book, state, event, stamp);
        notes.see(View::new(kept.book, &state, &stamp.at), event, stamp);
    }
    Ok(Walked { state, notes })
}

impl Walked {
    /// The record of the run, not sealed yet; what is open, where it was closed all the same.
    pub(super) fn record(self, kept: &Kept<'_>) -> Result<Record, Vec<OpenItem>> {
        let (record, open) = self.whatever_is_open(kept).ok_or_else(|| vec![OpenItem::NotClosed])?;
        if open.is_empty() { Ok(record) } else { Err(open) }
    }

    fn whatever_is_open(self, kept: &Kept<'_>) -> Option<(Record, Vec<OpenItem>)> {
        let Self { state, notes } = self;
        let ((start, began), last) = (state.start.as_ref()?, state.last.as_ref()?);
        let memo = Memo::default();
        let view = View::new(kept.book, &state, &last.at).remembering(&memo);
        let open = if state.closed.is_some() { view.unsealed_items() } else { Vec::new() };
        let frame = Frame { kept, start, began: moment(began), last };
        Some((frame.record(&Work::new(view, kept.events), notes), open))
    }
}

/// When deviations were decided about that had no disposition at first, by their place.
fn decided(events: &[(Event, Stamp)]) -> BTreeMap<usize, Moment> {
    let disposed = events.iter().filter_map(|(event, stamp)| match event {
        Event::Disposed { deviation, .. } => Some((*deviation, moment(stamp))),
        _ => None,
    });
    disposed.collect()
}

/// What is the same from the first event to the last.
struct Frame<'run> {
    kept: &'run Kept<'run>,
    start: &'run Start,
    began: Moment,
    last: &'run Stamp,
}

impl Frame<'_> {
    fn record(self, work: &Work<'_>, notes: Notes) -> Record {
        let (view, events) = (work.view, self.kept.events);
        let mut outcome = Outcome::default();
        let readings = gather::readings(work, &mut outcome);
        let values = gather::values(work, &mut outcome);
        let fasteners = gather::fasteners(work, &mut outcome);
        let limits_in_force = gather::limits_in_force(work, &mut outcome);
        let repeats = gather::repeats(work, &mut outcome);
        let all = gather::deviations(work, &decided(events));
        let closed = view.state.closed.as_ref().map(moment);
        let not_finished = closed.is_none().then(|| gather::not_finished(work, self.last));
        Record {
            format: FORMAT,
            run: self.start.run.clone(),
            engine: self.start.engine.clone(),
            answered_from: self.start.answered_from.clone(),
            redacted: None,
            result: gather::result(&outcome, all.len(), not_finished.as_ref()),
            outcome,
            loose_ends: gather::loose_ends(work),
            found_in_force: gather::found_in_force(self.start),
            left_in_force: if closed.is_some() { gather::standing(work) } else { Vec::new() },
            not_finished,
            deviations: model::Deviations { count: all.len(), all },
            people: gather::people(work),
            vehicle: self.vehicle(view),
            procedure: self.procedure(),
            closed,
            readings,
            pairs: gather::pairs(work),
            values,
            fasteners,
            limits_in_force,
            dues: gather::dues(work),
            holds: gather::holds(work),
            briefs: gather::briefs(work, events),
            looks: gather::looks(work, events),
            repeats,
            steps: gather::steps(work),
            hazards: gather::hazards(work),
            waits: gather::waits(work),
            logs: gather::logs(work),
            clock: gather::clock(view),
            notes: notes.0,
            sittings: gather::sittings(events),
            journal: self.kept.lines.to_vec(),
            began: self.began,
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
            level_of_use: header.level_of_use.word().to_owned(),
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
            odometer_before: view.state.particulars.odometer.iter().map(replaced).collect(),
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
            before: view.state.particulars.vehicle.get(name).into_iter().flatten().map(replaced).collect(),
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
