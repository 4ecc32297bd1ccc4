//! A history as a page.

use super::model::{History, Taken};
use super::plot::plot;
use crate::print::{Block, Page, Row, Section, Style, Table};
use crate::record::model::{Amount, Limit};
use crate::record::report::time;

/// The history as a page; without drawings the table tells the same.
pub fn page(history: &History, with_drawing: bool) -> Page {
    let what = history.taken.last().map_or_else(|| history.name.clone(), |taken| taken.what.clone());
    let figure = plot(history).filter(|_| with_drawing);
    let title = title(&what, &history.name);
    let figure = figure.map(|figure| Block::Figure(title.clone(), figure));
    let rows = history.taken.iter().map(row).collect();
    let columns = ["When", "What", "Result", "Verdict", "Limits", "Run"];
    let columns = columns.iter().map(|&column| column.to_owned()).collect();
    let table = Table {
        caption: format!("Every time that it was {}", verb(history)),
        columns,
        rows,
        style: Style::Named(&["", "", "", "run"]),
    };
    let words = format!("{}. {}", vehicle(history), summary(history));
    let blocks = std::iter::once(Block::Words(words)).chain(figure).chain([Block::Table(table)]);
    let warnings = history
        .unread
        .iter()
        .map(|unread| format!("RUN {} CANNOT BE READ, and may hold more: {}", unread.run, unread.why));
    let warnings: Vec<String> = warnings.chain(no_sheet(history)).collect();
    Page {
        kind: "HISTORY".to_owned(),
        title,
        warnings,
        sections: vec![Section::first("Over the runs", blocks.collect())],
    }
}

/// `flow through the cooler [flow]`; what has no other name than what it is has that alone.
pub fn title(what: &str, name: &str) -> String {
    if what == name { what.to_owned() } else { format!("{what} [{name}]") }
}

/// What is done each time.
fn verb(history: &History) -> &'static str {
    match history.taken.last().map(|taken| taken.kind.as_str()) {
        Some("computed value") => "worked out",
        Some("count") => "counted",
        _ => "taken",
    }
}

fn vehicle(history: &History) -> String {
    let identification = history.identification.as_ref().map(|id| format!(" ({id})")).unwrap_or_default();
    format!("{}{identification}", history.vehicle.as_deref().unwrap_or("no vehicle sheet"))
}

fn no_sheet(history: &History) -> Option<String> {
    let words = "These runs have no vehicle sheet: whether they are all of one vehicle, they do not say.";
    history.identification.is_none().then(|| words.to_owned())
}

/// How often, since when, and how many failed.
fn summary(history: &History) -> String {
    let count = |is_meant: fn(&Taken) -> bool| history.taken.iter().filter(|taken| is_meant(taken)).count();
    let runs: std::collections::BTreeSet<&str> =
        history.taken.iter().map(|taken| taken.run.as_str()).collect();
    let taken = history.taken.len();
    let plural = |count: usize, what: &str| format!("{count} {what}{}", if count == 1 { "" } else { "s" });
    let failed = count(|taken| taken.fails);
    let aside = count(|taken| taken.aside.is_some());
    let aside =
        if aside == 0 { String::new() } else { format!(", {aside} of them set aside or taken again") };
    let mut verb = verb(history).to_owned();
    verb.get_mut(..1).into_iter().for_each(str::make_ascii_uppercase);
    format!("{verb} {} in {}{aside}; {failed} failed.", plural(taken, "time"), plural(runs.len(), "run"))
}

fn row(taken: &Taken) -> Row {
    let odometer =
        taken.odometer.as_ref().map(|odometer| format!(", {}", odometer.shown)).unwrap_or_default();
    let in_unit = taken.in_unit.as_ref().map(|amount| format!(" = {}", amount.shown)).unwrap_or_default();
    let occasion = taken.occasion.as_ref().map(|occasion| format!(", {occasion}")).unwrap_or_default();
    let pass = taken.pass.as_ref().map(|pass| format!(", {pass}")).unwrap_or_default();
    let open = if taken.closed { "" } else { ", not closed" };
    let with = taken.identity.as_ref().map(|identity| format!(" {identity}")).unwrap_or_default();
    let with = taken.instrument.as_ref().map(|instrument| format!("with {instrument}{with}"));
    let step = taken.step.as_ref().map(|step| format!(", step {step}")).unwrap_or_default();
    Row {
        at: format!("{}{odometer}", time(&taken.at)),
        what: format!("{}{occasion}", taken.what),
        cells: vec![
            format!("{}{in_unit}", taken.shown),
            taken.verdict.clone().unwrap_or_default(),
            limits(taken),
            format!("{}{open}{step}{pass}", taken.run),
        ],
        figure: None,
        notes: taken.aside.iter().chain(&taken.trace).cloned().chain(with).collect(),
    }
}

fn limits(taken: &Taken) -> String {
    let said = |limit: &Option<Limit>, inclusive: &str, exclusive: &str| {
        let Limit { amount: Amount { shown, .. }, inclusive: is, .. } = limit.as_ref()?;
        Some(format!("{} {shown}", if *is { inclusive } else { exclusive }))
    };
    let limits = [said(&taken.lower, "at least", "above"), said(&taken.upper, "at most", "below")];
    limits.into_iter().flatten().collect::<Vec<_>>().join(", ")
}
