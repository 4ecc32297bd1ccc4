//! What belongs together over the runs of a job: each figure with where it is from, and the fasteners.

use crate::job::record::model::{Balance, Due, FastenerPlace, Fasteners, JobRecord, Row};
use crate::journal::read_time;
use crate::terminal::{Line, Role, Text};

/// Every balance as a table, its sum below it.
pub(super) fn balances(record: &JobRecord) -> Text {
    record.balances.iter().fold(Text::new(), |text, one| text.blank().then(balance(one)))
}

fn balance(balance: &Balance) -> Text {
    if balance.rows.iter().all(|row| row.open.is_some()) {
        let line = Line::new().with(Role::Strong, balance.what.as_str()).with(Role::Plain, ": nothing yet");
        return line.hang(2).into();
    }
    let amounts: Vec<String> = balance.rows.iter().map(amount).collect();
    let total = balance.sum.as_ref().map(|sum| format!("= {}", sum.total.shown));
    let width = amounts.iter().chain(&total).map(|amount| amount.chars().count()).max().unwrap_or_default();
    let row = |amount: &str, words: String| {
        let amount = format!("{amount:<width$}").replace(' ', "\u{a0}");
        Line::new().with(Role::Plain, format!("{amount}  {words}")).indent(2).hang(width + 4)
    };
    let head = Line::new().with(Role::Strong, balance.what.as_str()).hang(2);
    let rows = balance.rows.iter().zip(&amounts);
    let text = rows.fold(Text::from(head), |text, (told, amount)| text.line(row(amount, from(told))));
    let Some((sum, total)) = balance.sum.as_ref().zip(total) else { return text };
    let without = sum.without.as_ref().map(|without| format!("NOT WHOLE: {without}"));
    let words = if balance.rows.iter().any(|row| row.sign == "minus") {
        Some(format!("{} less {}", sum.plus.shown, sum.minus.shown))
    } else {
        None
    };
    let words: Vec<String> = words.into_iter().chain(without).collect();
    text.line(row(&total, words.join("; ")))
}

/// A figure with its sign; of words and of what is not there that.
fn amount(row: &Row) -> String {
    let sign = match row.sign.as_str() {
        "plus" => "+ ",
        "minus" => "- ",
        _ => "",
    };
    let words = || if row.open.is_some() { Some("open") } else { row.words.as_deref() };
    let amount = row.amount.as_ref().map(|amount| amount.shown.as_str());
    format!("{sign}{}", amount.or_else(words).unwrap_or_default())
}

/// What a figure is, and where it is from.
fn from(row: &Row) -> String {
    let pass = row.pass.as_ref().map(|pass| format!(", {pass}")).unwrap_or_default();
    let source = match (&row.run, &row.when) {
        (Some(run), Some(when)) => {
            let at = read_time(&when.at).map(|at| at.strftime("%Y-%m-%d %H:%M").to_string());
            format!("{run}, entry {}, {}", when.entry, at.unwrap_or_else(|_| when.at.clone()))
        }
        (Some(run), None) => run.clone(),
        (None, _) => row.result.clone(),
    };
    let open = row.open.as_ref().map(|why| format!(": {why}")).unwrap_or_default();
    format!("{}{pass} ({source}){open}", row.what)
}

/// The groups of fasteners that were begun, those with something open by their places.
pub(super) fn fasteners(record: &JobRecord) -> Text {
    if record.fasteners.is_empty() {
        return Text::new();
    }
    let applies = record.fasteners.iter().filter(|group| group.state != "not applicable");
    let (done, other): (Vec<_>, Vec<_>) = applies.partition(|group| group.state == "done");
    let places: usize = done.iter().map(|group| group.places.len()).sum();
    let words = format!("{} of {} groups done, {places} places", done.len(), done.len() + other.len());
    let head = Line::new().with(Role::Strong, "Fasteners: ").with(Role::Plain, words).hang(2);
    other.into_iter().fold(Text::new().blank().line(head), |text, group| text.line(open(group)))
}

fn open(group: &Fasteners) -> Line {
    let is_open = |place: &&FastenerPlace| place.state != "done";
    let places =
        group.places.iter().filter(is_open).map(|place| format!("{} {}", place.position, place.state));
    let places = places.collect::<Vec<_>>().join(", ");
    let more = if places.is_empty() { String::new() } else { format!(": {places}") };
    let words = format!("{} ({}, step {}): {}{more}", group.what, group.run, group.step, group.state);
    Line::new().with(Role::Plain, words).indent(2).hang(4)
}

/// What falls due after the job.
pub(super) fn dues(record: &JobRecord) -> Text {
    if record.dues.is_empty() {
        return Text::new();
    }
    let line = |due: &Due| {
        Line::plain(format!("{}: {} (run {})", due.due.what, due.due.words, due.run)).indent(2).hang(4)
    };
    let head = Line::new().with(Role::Strong, "Due");
    record.dues.iter().map(line).fold(Text::new().blank().line(head), Text::line)
}
