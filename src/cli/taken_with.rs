//! What was or may have been taken with an instrument, in one run.

use jiff::ZonedDateTime;

use super::arguments;
use crate::procedure::{Name, StepId};
use crate::quantity::Entry;
use crate::record::impact::TakenWith;
use crate::run::{Act, FasteningEvent, Instrument, OccurrenceId, Origin, Stamp, Taken, View};
use crate::session::StoredRun;

/// What was or may have been taken with the instrument in a run, in the order of the entries.
pub(super) fn of_run(run: &StoredRun, command: &arguments::Impact) -> Vec<TakenWith> {
    let Some(last) = &run.state.last else { return Vec::new() };
    let view = run.view(&last.at);
    let mut found: Vec<TakenWith> = Vec::new();
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
fn used(
    view: View<'_>,
    tool: &Name,
    named: Option<&Instrument>,
    command: &arguments::Impact,
) -> Option<TakenWith> {
    let what = view.book.procedure.called(tool);
    let by_name = is_same(tool.as_str(), command.instrument()) || is_same(what, command.instrument());
    let is_meant = by_name || named.is_none_or(|named| is_same(&named.identity, command.instrument()));
    is_meant.then(|| TakenWith {
        tool: what.to_owned(),
        by_name,
        identity: named.map(|named| named.identity.clone()),
        due: named.map(|named| named.due.to_string()),
        ..TakenWith::default()
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
) -> Option<TakenWith> {
    let tool = view.book.procedure.reading(name)?.instrument.as_ref()?;
    let row = used(view, tool, view.instrument_of(name, taken.place), command)?;
    let step = view.book.procedure.taken_at(name)?;
    placed(run, view, step, &taken.stamp, command).map(|placed| TakenWith {
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
) -> Option<TakenWith> {
    let FasteningEvent::Tightened { at: spot, reached } = &act.event else { return None };
    let group = view.book.procedure.fastener_group(&spot.group)?;
    group.stages.get(spot.stage)?.criterion.as_ref()?;
    let row = used(view, group.instrument.as_ref()?, view.instrument_of_act(act), command)?;
    let step = view.book.step_of_fasteners(&spot.group)?;
    placed(run, view.inside(at), step, &act.stamp, command).map(|placed| TakenWith {
        reading: spot.words(view),
        value: reached.as_ref().map_or_else(|| "done".to_owned(), Entry::with_unit),
        ..with(row, placed)
    })
}

/// The place of one with the instrument of the other.
fn with(instrument: TakenWith, placed: TakenWith) -> TakenWith {
    TakenWith {
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
) -> Option<TakenWith> {
    is_since(&stamp.at, command).then(|| TakenWith {
        run: run.id.as_str().to_owned(),
        entry: Some(stamp.seq),
        at: stamp.at.strftime("%Y-%m-%d %H:%M").to_string(),
        step: view.book.procedure.step(step).map(|step| step.number.clone()).unwrap_or_default(),
        pass: view.pass_words(step),
        ..TakenWith::default()
    })
}
