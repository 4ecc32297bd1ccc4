//! `bayhand impact`

use jiff::ZonedDateTime;
use serde::Serialize;

use super::Exit;
use super::arguments;
use super::context::Context;
use crate::journal::StoredRun;
use crate::procedure::Name;
use crate::quantity::Entry;
use crate::run::{Act, FasteningEvent, Instrument, Origin, Stamp, Taken};
use crate::terminal::{Line, Role, Text};

/// Lists every reading that was taken with an instrument, over all runs.
pub(super) fn impact(context: &Context, command: &arguments::Impact) -> Exit {
    match readings(context, command) {
        Ok(rows) if command.json => {
            context.write(&serde_json::to_string_pretty(&rows).map(|json| json + "\n").unwrap_or_default())
        }
        Ok(rows) => context.show(&text(&rows, command)),
        Err(exit) => exit,
    }
}

/// A reading that was taken with the instrument; or a run that cannot be read, so that it may hold some.
#[derive(Debug, Serialize)]
struct Row {
    run: String,
    at: String,
    step: String,
    reading: String,
    value: String,
    corrected: bool,
    due: String,
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

fn of_run(run: &StoredRun, command: &arguments::Impact) -> Vec<Row> {
    let attempts =
        run.state.readings.iter().flat_map(|(name, taken)| taken.iter().map(move |one| (name, one)));
    let meant = |place: u64, stamp: &Stamp| {
        let instrument = run.state.taking.circumstances.get(&place)?.instrument.as_ref()?;
        let is_meant = is_same(&instrument.identity, &command.instrument) && is_since(&stamp.at, command);
        is_meant.then_some(instrument)
    };
    let readings = attempts.filter_map(|(name, taken)| {
        let instrument = meant(taken.place, &taken.stamp)?;
        Some((taken.stamp.seq, row(run, name, taken, instrument)))
    });
    let acts = run.state.fasteners.values().flat_map(|facts| &facts.acts);
    let fasteners = acts.filter_map(|act| {
        let instrument = meant(act.stamp.seq, &act.stamp)?;
        Some((act.stamp.seq, fastener_row(run, act, instrument)?))
    });
    let mut found: Vec<(u64, Row)> = readings.chain(fasteners).collect();
    found.sort_by_key(|(seq, _)| *seq);
    found.into_iter().map(|(_, row)| row).collect()
}

fn is_same(one: &str, other: &str) -> bool {
    one.trim().eq_ignore_ascii_case(other.trim())
}

fn is_since(at: &ZonedDateTime, command: &arguments::Impact) -> bool {
    command.since.is_none_or(|since| at.date() >= since)
}

fn fastener_row(run: &StoredRun, act: &Act, instrument: &Instrument) -> Option<Row> {
    let at = act.event.spot()?;
    let step = run.book.step_of_fasteners(&at.group).and_then(|step| run.book.procedure.step(step));
    let reached = match &act.event {
        FasteningEvent::Tightened { reached, .. } => reached.as_ref().map(Entry::with_unit),
        _ => None,
    };
    Some(Row {
        run: run.id.as_str().to_owned(),
        at: act.stamp.at.strftime("%Y-%m-%d %H:%M").to_string(),
        step: step.map(|step| step.number.clone()).unwrap_or_default(),
        reading: at.words(run.view(&act.stamp.at)),
        value: reached.unwrap_or_else(|| "done".to_owned()),
        corrected: false,
        due: instrument.due.to_string(),
        trouble: None,
    })
}

fn row(run: &StoredRun, name: &Name, taken: &Taken, instrument: &Instrument) -> Row {
    let procedure = &run.book.procedure;
    let step = procedure.taken_at(name).and_then(|step| procedure.step(step));
    Row {
        run: run.id.as_str().to_owned(),
        at: taken.stamp.at.strftime("%Y-%m-%d %H:%M").to_string(),
        step: step.map(|step| step.number.clone()).unwrap_or_default(),
        reading: procedure.called(name).to_owned(),
        value: taken.value.shown(),
        corrected: taken.origin != Origin::Measured,
        due: instrument.due.to_string(),
        trouble: None,
    }
}

fn unread(run: &str, trouble: String) -> Row {
    let empty = String::new;
    Row {
        run: run.to_owned(),
        at: empty(),
        step: empty(),
        reading: empty(),
        value: empty(),
        corrected: false,
        due: empty(),
        trouble: Some(trouble),
    }
}

fn text(rows: &[Row], command: &arguments::Impact) -> Text {
    if rows.is_empty() {
        let since = command.since.map(|since| format!(" since {since}")).unwrap_or_default();
        return Text::plain(&format!("No reading was taken with {}{since}.", command.instrument));
    }
    rows.iter().fold(Text::new(), |text, row| text.line(row_line(row)))
}

fn row_line(row: &Row) -> Line {
    if let Some(trouble) = &row.trouble {
        let words = format!("{}  {trouble}", row.run);
        return Line::new().with(Role::Strong, "cannot be read: ").with(Role::Plain, words).hang(4);
    }
    let corrected = if row.corrected { " (a correction)" } else { "" };
    let words = format!(
        "{}, step {}, {}: {}{corrected}; calibration due {}",
        row.run, row.step, row.reading, row.value, row.due
    );
    Line::new().with(Role::Strong, format!("{}  ", row.at)).with(Role::Plain, words).hang(4)
}
