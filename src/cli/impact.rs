//! `bayhand impact`

use jiff::ZonedDateTime;
use serde::Serialize;

use super::Exit;
use super::arguments;
use super::context::Context;
use super::impact_again;
use crate::procedure::Name;
use crate::quantity::Entry;
use crate::run::{Act, FasteningEvent, Instrument, OccurrenceId, Origin, Stamp, Taken, View};
use crate::session::StoredRun;
use crate::terminal::{Line, Role, Text};

/// Lists every reading that was taken with an instrument, over all runs, and every one of which nobody can say with
/// which instrument it was taken.
pub(super) fn impact(context: &Context, command: &arguments::Impact) -> Exit {
    if let Some(off) = &command.error {
        return impact_again::impact_again(context, command, off);
    }
    match readings(context, command) {
        Ok(rows) if command.json => {
            context.write(&serde_json::to_string_pretty(&rows).map(|json| json + "\n").unwrap_or_default())
        }
        Ok(rows) => context.show(&text(&rows, command)),
        Err(exit) => exit,
    }
}

/// A reading that was or may have been taken with the instrument; or a run that cannot be read, so that it may hold some.
#[derive(Debug, Default, Serialize)]
pub(super) struct Row {
    run: String,
    /// The entry; none of a run that cannot be read.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) entry: Option<u64>,
    at: String,
    step: String,
    pass: Option<String>,
    reading: String,
    value: String,
    corrected: bool,
    /// The tool of the procedure that it was taken with.
    pub(super) tool: String,
    /// Whether that tool is what was asked for, whichever instrument stood for it.
    #[serde(skip)]
    pub(super) by_name: bool,
    /// What is written on the instrument; none where nobody said which one it was.
    pub(super) identity: Option<String>,
    due: Option<String>,
    trouble: Option<String>,
}

fn readings(context: &Context, command: &arguments::Impact) -> Result<Vec<Row>, Exit> {
    let runs = context.runs()?;
    let listing = runs.list().map_err(|error| context.journal_error(&error))?;
    let mut rows = Vec::new();
    for (id, contents) in listing.runs {
        match StoredRun::of(&runs, &id, contents) {
            Ok(run) => rows.extend(of_run(&run, command)),
            Err(error) => rows.push(unread(id.as_str(), error.to_string())),
        }
    }
    rows.extend(listing.broken.iter().map(|broken| unread(&broken.name, broken.error.to_string())));
    Ok(rows)
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
    step: crate::procedure::StepId,
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

fn unread(run: &str, trouble: String) -> Row {
    Row { run: run.to_owned(), trouble: Some(trouble), ..Row::default() }
}

fn text(rows: &[Row], command: &arguments::Impact) -> Text {
    if rows.is_empty() {
        let since = command.since.map(|since| format!(" since {since}")).unwrap_or_default();
        return Text::plain(&format!(
            "No reading was taken with {}{since}, and none with an instrument that nobody named.",
            command.instrument
        ));
    }
    rows.iter().fold(Text::new(), |text, row| text.line(row_line(row)))
}

fn row_line(row: &Row) -> Line {
    if let Some(trouble) = &row.trouble {
        let words = format!("{}  {trouble}", row.run);
        return Line::new().with(Role::Strong, "cannot be read: ").with(Role::Plain, words).hang(4);
    }
    let corrected = if row.corrected { " (a correction)" } else { "" };
    let pass = row.pass.as_ref().map(|pass| format!(", {pass}")).unwrap_or_default();
    let due = row.due.as_deref().unwrap_or_default();
    let with = match &row.identity {
        Some(identity) => format!("{identity}, calibration due {due}"),
        None => format!("{}, nobody said which one: it may be this one", row.tool),
    };
    let words =
        format!("{}, step {}{pass}, {}: {}{corrected}; {with}", row.run, row.step, row.reading, row.value);
    Line::new().with(Role::Strong, format!("{}  ", row.at)).with(Role::Plain, words).hang(4)
}
