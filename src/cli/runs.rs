//! `bayhand runs`

use serde::Serialize;

use super::Exit;
use super::arguments;
use super::beside;
use super::context::Context;
use crate::catalogue::{Catalogue, Summary};
use crate::journal::{RunId, Runs};
use crate::run::{Leave, Sitting, View};
use crate::session::{NotOpened, StoredRun};
use crate::terminal::{Line, Role, Text, clock};

/// Lists all runs, the open ones first.
pub(super) fn runs(context: &Context, command: &arguments::Runs) -> Exit {
    match listed(context) {
        Ok(rows) if command.json => context.write_json(&json(&rows)),
        Ok(rows) => context.show(&text(&rows)),
        Err(exit) => exit,
    }
}

/// One run, as it is listed.
#[derive(Debug, Default, Serialize)]
pub(super) struct Row {
    run: String,
    standing: &'static str,
    procedure: String,
    began: String,
    at: String,
    /// Waits whose time is over, or was missed, and the clocks that run.
    waits: Vec<String>,
    trouble: Option<String>,
    /// Where its original lies, of one that was copied here with all the others.
    copied_from: Option<String>,
}

fn listed(context: &Context) -> Result<Vec<Row>, Exit> {
    let runs = context.runs()?;
    let catalogue = Catalogue::read(&runs).map_err(|error| context.journal_error(&error))?;
    let mut rows: Vec<Row> =
        catalogue.others.iter().map(|(id, run)| other_row(context, &runs, id, run.as_ref())).collect();
    rows.extend(catalogue.broken.iter().map(|broken| trouble_row(&broken.name, broken.error.to_string())));
    rows.extend(catalogue.copies.iter().map(|(id, original)| copy_row(id, original)));
    let mut closed: Vec<Row> =
        catalogue.summaries(&runs).into_iter().map(|(id, run)| closed_row(id.as_str(), &run)).collect();
    closed.sort_by(|one, other| (&one.began, &one.run).cmp(&(&other.began, &other.run)));
    rows.extend(closed);
    Ok(rows)
}

const CLOSED: &str = "closed";

/// The run is where its index says; its journal was found as long as it was when it was closed.
fn closed_row(name: &str, run: &Summary) -> Row {
    Row {
        run: name.to_owned(),
        standing: CLOSED,
        procedure: format!("{}, revision {}", run.title, run.revision),
        began: minute(&run.began),
        ..Row::default()
    }
}

/// An RFC 3339 time without its seconds and offset.
fn minute(time: &str) -> String {
    time.get(..16).unwrap_or(time).replace('T', " ")
}

fn other_row(context: &Context, runs: &Runs, id: &RunId, run: Result<&StoredRun, &NotOpened>) -> Row {
    let run = match run {
        Ok(run) => run,
        Err(error) => return trouble_row(id.as_str(), error.to_string()),
    };
    let now = context.system.now();
    let view = run.view(&now);
    let step = view.step_stood_at();
    let began = run.state.start.as_ref().map(|(_, stamp)| stamp.at.strftime("%Y-%m-%d %H:%M").to_string());
    let cut_off = beside::cut_off(&context.system, &runs.folder(id), run.events.len());
    Row {
        run: id.as_str().to_owned(),
        standing: standing(view),
        procedure: run.start().map(|start| start.procedure.what.clone()).unwrap_or_default(),
        began: began.unwrap_or_default(),
        at: step.map(|step| step.number.clone()).unwrap_or_default(),
        waits: waits(view),
        trouble: cut_off.map(|fault| fault.to_string()),
        copied_from: runs.original_elsewhere(id),
    }
}

/// The clocks that run in an open run: `DUE: solvent soaks, over at 18:51`.
fn waits(view: View<'_>) -> Vec<String> {
    let waits = if view.state.closed.is_some() { Vec::new() } else { view.running_waits() };
    waits.iter().map(|wait| clock(view, wait).words()).collect()
}

/// The word for where a run stands.
pub(super) fn standing(view: View<'_>) -> &'static str {
    let left = view.state.left.as_ref().map(|left| left.how);
    match (&view.state.closed, view.state.sitting, left) {
        (Some(_), _, _) => CLOSED,
        (None, Sitting::Resting, Some(Leave::Stop)) => "stopped",
        (None, Sitting::Resting, _) => "suspended",
        (None, _, _) => "open",
    }
}

fn trouble_row(name: &str, trouble: String) -> Row {
    let standing = "cannot be read";
    Row { run: name.to_owned(), standing, trouble: Some(trouble), ..Row::default() }
}

fn copy_row(id: &RunId, original: &RunId) -> Row {
    let trouble = format!("it counts for nothing while run {original} is here too");
    Row { run: id.as_str().to_owned(), standing: "copy", trouble: Some(trouble), ..Row::default() }
}

fn json(rows: &[Row]) -> String {
    serde_json::to_string_pretty(rows).map(|json| json + "\n").unwrap_or_default()
}

fn text(rows: &[Row]) -> Text {
    if rows.is_empty() {
        return Text::plain("There is no run yet; `bayhand run FILE` begins one.");
    }
    rows.iter().fold(Text::new(), |text, row| text.line(row_line(row)))
}

fn row_line(row: &Row) -> Line {
    let at = if row.at.is_empty() { String::new() } else { format!(", at step {}", row.at) };
    let waits: String = row.waits.iter().flat_map(|wait| ["; ", wait.as_str()]).collect();
    let copied = row.copied_from.as_ref();
    let copied = copied.map(|folder| format!("; this is a copy: its original is still in {folder}"));
    let words = match &row.trouble {
        Some(trouble) => trouble.clone(),
        None => format!("{}, began {}{at}{waits}", row.procedure, row.began),
    };
    Line::new()
        .with(Role::Strong, format!("{}: ", row.standing))
        .with(Role::Plain, format!("{}  {words}{}", row.run, copied.unwrap_or_default()))
        .hang(4)
}
