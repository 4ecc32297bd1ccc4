//! What was or may have been taken with an instrument, in one run.

use jiff::ZonedDateTime;
use serde::Serialize;

use super::arguments;
use crate::procedure::{Name, StepId};
use crate::quantity::Entry;
use crate::run::{Act, FasteningEvent, Instrument, OccurrenceId, Origin, Stamp, Taken, View};
use crate::session::StoredRun;

/// A reading that was or may have been taken with the instrument; or a run that cannot be read, so that it may hold some.
#[derive(Debug, Default, Serialize)]
pub(super) struct Row {
    pub(super) run: String,
    /// The entry; none of a run that cannot be read.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) entry: Option<u64>,
    pub(super) at: String,
    pub(super) step: String,
    pub(super) pass: Option<String>,
    pub(super) reading: String,
    pub(super) value: String,
    pub(super) corrected: bool,
    /// The tool of the procedure that it was taken with.
    pub(super) tool: String,
    /// Whether that tool is what was asked for, whichever instrument stood for it.
    #[serde(skip)]
    pub(super) by_name: bool,
    /// What is written on the instrument; none where nobody said which one it was.
    pub(super) identity: Option<String>,
    pub(super) due: Option<String>,
    pub(super) trouble: Option<String>,
}

/// What was or may have been taken with the instrument in a run, in the order of the entries.
pub(super) fn of_run(run: &StoredRun, command: &arguments::Impact) -> Vec<Row> {
    let Some(last) = &run.state.last else { return Vec::new() };
    let view = run.view(&last.at);
    let mut found: Vec<Row> = Vec::new();
    for (at, occurrence) in run.state.tree.all() {
        let here = view.inside(at);
        for (name, attempts) in &occurrence.said.readings {
            let taken = attempts.taken.iter();
            found.extend(taken.filter_map(|taken| reading(run, here, name, taken, command)));
        }
        let acts = occurrence.said.acts.iter();
        found.extend(acts.filter_map(|act| fastener(run, here, at, act, command)));
    }
    found.sort_by_key(|row| row.entry);
    found
}

/// What was taken with a tool: whether that tool, or the instrument that stood for it then, is the one that is asked for;
/// nobody can rule out one that was never named.
fn used(view: View<'_>, tool: &Name, named: Option<&Instrument>, command: &arguments::Impact) -> Option<Row> {
    let what = view.book.procedure.called(tool);
    let by_name = is_same(tool.as_str(), &command.instrument) || is_same(what, &command.instrument);
    let is_meant = by_name || named.is_none_or(|named| is_same(&named.identity, &command.instrument));
    is_meant.then(|| Row {
        tool: what.to_owned(),
        by_name,
        identity: named.map(|named| named.identity.clone()),
        due: named.map(|named| named.due.to_string()),
        ..Row::default()
    })
}

fn is_same(one: &str, other: &str) -> bool {
    one.trim().eq_ignore_ascii_case(other.trim())
}

fn is_since(at: &ZonedDateTime, command: &arguments::Impact) -> bool {
    command.since.is_none_or(|since| at.date() >= since)
}

fn reading(
    run: &StoredRun,
    view: View<'_>,
    name: &Name,
    taken: &Taken,
    command: &arguments::Impact,
) -> Option<Row> {
    let tool = view.book.procedure.reading(name)?.instrument.as_ref()?;
    let row = used(view, tool, view.instrument_of(name, taken.place), command)?;
    let step = view.book.procedure.taken_at(name)?;
    placed(run, view, step, &taken.stamp, command).map(|placed| Row {
        reading: view.book.procedure.called(name).to_owned(),
        value: taken.value.shown(),
        corrected: taken.origin != Origin::Measured,
        ..with(row, placed)
    })
}

fn fastener(
    run: &StoredRun,
    view: View<'_>,
    at: OccurrenceId,
    act: &Act,
    command: &arguments::Impact,
) -> Option<Row> {
    let FasteningEvent::Tightened { at: spot, reached } = &act.event else { return None };
    let group = view.book.procedure.fastener_group(&spot.group)?;
    group.stages.get(spot.stage)?.criterion.as_ref()?;
    let row = used(view, group.instrument.as_ref()?, view.instrument_of_act(act), command)?;
    let step = view.book.step_of_fasteners(&spot.group)?;
    placed(run, view.inside(at), step, &act.stamp, command).map(|placed| Row {
        reading: spot.words(view),
        value: reached.as_ref().map_or_else(|| "done".to_owned(), Entry::with_unit),
        ..with(row, placed)
    })
}

/// The place of one with the instrument of the other.
fn with(instrument: Row, placed: Row) -> Row {
    Row {
        run: placed.run,
        entry: placed.entry,
        at: placed.at,
        step: placed.step,
        pass: placed.pass,
        ..instrument
    }
}

/// Where and when it was.
fn placed(
    run: &StoredRun,
    view: View<'_>,
    step: StepId,
    stamp: &Stamp,
    command: &arguments::Impact,
) -> Option<Row> {
    is_since(&stamp.at, command).then(|| Row {
        run: run.id.as_str().to_owned(),
        entry: Some(stamp.seq),
        at: stamp.at.strftime("%Y-%m-%d %H:%M").to_string(),
        step: view.book.procedure.step(step).map(|step| step.number.clone()).unwrap_or_default(),
        pass: view.pass_words(step),
        ..Row::default()
    })
}
