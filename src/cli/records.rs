//! `bayhand records`: closed runs, found by what they are about. A listing replays none of them, their readings those
//! that fit.

use serde::Serialize;

use super::Exit;
use super::arguments::Records;
use super::context::Context;
use crate::catalogue::{Catalogue, Summary};
use crate::job::record::record_of;
use crate::journal::{RunId, Runs};
use crate::print::{csv_row, csv_words};
use crate::record::csv;
use crate::session::StoredRun;
use crate::terminal::{Line, Role, Text};

/// Lists the closed runs that fit, the newest first.
pub(super) fn records(context: &Context, command: &Records) -> Exit {
    let runs = match context.runs() {
        Ok(runs) => runs,
        Err(exit) => return exit,
    };
    let catalogue = match Catalogue::read(&runs) {
        Ok(catalogue) => catalogue,
        Err(error) => return context.journal_error(&error),
    };
    let summaries = catalogue.summaries(&runs);
    let all = summaries.iter().map(|(id, summary)| Row { run: id.as_str(), summary });
    let mut rows: Vec<Row<'_>> = all.filter(|row| fits(command, row.summary)).collect();
    rows.sort_by(|one, other| (&other.summary.closed, other.run).cmp(&(&one.summary.closed, one.run)));
    match (command.json, command.csv) {
        (true, _) => context.write_json(&json(&rows)),
        (_, true) if command.readings => readings(context, &runs, &rows),
        (_, true) => context.write(&listing(&rows)),
        _ => context.show(&text(&rows)),
    }
}

/// A closed run under its name.
#[derive(Serialize)]
struct Row<'all> {
    run: &'all str,
    #[serde(flatten)]
    summary: &'all Summary,
}

fn fits(command: &Records, summary: &Summary) -> bool {
    let has = |wanted: &Option<String>, texts: &[&str]| {
        let Some(wanted) = wanted else { return true };
        let wanted = wanted.to_lowercase();
        texts.iter().any(|text| text.to_lowercase().contains(&wanted))
    };
    let any = |wanted: &Option<String>, texts: &[String]| {
        has(wanted, &texts.iter().map(String::as_str).collect::<Vec<_>>())
    };
    let day = summary.closed.get(..10).and_then(|day| day.parse::<jiff::civil::Date>().ok());
    let vehicle = [&summary.vehicle, &summary.identification].map(|text| text.as_deref().unwrap_or_default());
    command.since.is_none_or(|since| day.is_some_and(|day| day >= since))
        && command.until.is_none_or(|until| day.is_some_and(|day| day <= until))
        && has(&command.vehicle, &vehicle)
        && has(&command.procedure, &[&summary.procedure, &summary.title])
        && any(&command.part, &summary.parts)
        && any(&command.instrument, &summary.instruments)
        && any(&command.deviation, &summary.deviations)
        && any(&command.person, &summary.people)
}

fn text(rows: &[Row<'_>]) -> Text {
    if rows.is_empty() {
        return Text::plain("No closed run fits.");
    }
    rows.iter().fold(Text::new(), |text, row| {
        let summary = row.summary;
        let day = summary.closed.get(..10).unwrap_or_default();
        let vehicle = summary.vehicle.as_deref().unwrap_or("no vehicle sheet");
        let odometer = summary.odometer.as_ref().map(|odometer| format!(", {odometer}")).unwrap_or_default();
        let line = Line::new()
            .with(Role::Strong, format!("{day}  {}: ", row.run))
            .with(Role::Plain, format!("{}, {vehicle}{odometer}. {}", summary.title, summary.result));
        text.line(line.hang(4))
    })
}

fn json(rows: &[Row<'_>]) -> String {
    serde_json::to_string_pretty(rows).map(|json| json + "\n").unwrap_or_default()
}

/// The readings of them all in one table. What cannot be read any more is said; the others are written all the same.
fn readings(context: &Context, runs: &Runs, rows: &[Row<'_>]) -> Exit {
    let mut exit = Exit::Done;
    let mut table = csv::head();
    for id in rows.iter().filter_map(|row| RunId::parse(row.run).ok()) {
        match StoredRun::read(runs, &id) {
            Ok(run) => table += &record_of(&run).as_ref().map(csv::rows).unwrap_or_default(),
            Err(error) => exit = context.not_opened(&error),
        }
    }
    match context.write(&table) {
        Exit::Done => exit,
        trouble => trouble,
    }
}

/// The columns, in their order; what is a list stands in one, with semicolons between.
const COLUMNS: &str = "run,procedure,title,revision,vehicle,identification,odometer,began,closed,result,people,deviations,instruments,parts,job,seal";

/// RFC 4180: a row a line, each ended by CR LF.
fn listing(rows: &[Row<'_>]) -> String {
    let row = |row: &Row<'_>| {
        let summary = row.summary;
        let or_empty = |text: &Option<String>| text.clone().unwrap_or_default();
        let fields = [
            row.run.to_owned(),
            summary.procedure.clone(),
            summary.title.clone(),
            summary.revision.clone(),
            or_empty(&summary.vehicle),
            or_empty(&summary.identification),
            or_empty(&summary.odometer),
            summary.began.clone(),
            summary.closed.clone(),
            summary.result.clone(),
            summary.people.join("; "),
            summary.deviations.join("; "),
            summary.instruments.join("; "),
            summary.parts.join("; "),
            or_empty(&summary.job),
            summary.seal.clone(),
        ];
        csv_row(fields.map(|field| csv_words(&field)))
    };
    format!("{COLUMNS}\r\n{}", rows.iter().map(row).collect::<String>())
}
