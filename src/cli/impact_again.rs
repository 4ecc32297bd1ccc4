//! `bayhand impact --error`: what was read with an instrument that was off, judged again.

use std::collections::BTreeSet;

use super::Exit;
use super::arguments;
use super::context::Context;
use super::taken_with::of_run;
use crate::catalogue::Catalogue;
use crate::quantity::Off;
use crate::record::Kept;
use crate::record::history::Unread;
use crate::record::impact::{Impact, OfRun, TakenWith};
use crate::record::rejudged::{Again, Turn, rejudged};
use crate::session::StoredRun;
use crate::terminal::{Line, Role, Text};

/// Judges every reading that was taken with an instrument again. The runs stay as they are.
pub(super) fn impact_again(context: &Context, command: &arguments::Impact, off: &Off) -> Exit {
    let all = match all(context, command, off) {
        Ok(all) => all,
        Err(exit) => return exit,
    };
    if let Some(why) = fits_nothing(&all) {
        return context
            .found(&format!("the error fits nothing that was read with {}: {why}", command.instrument()));
    }
    let written = if command.json {
        context.write_json(&serde_json::to_string_pretty(&all).map(|json| json + "\n").unwrap_or_default())
    } else {
        context.show(&text(&all))
    };
    let is_worse = results(&all).any(|(_, again)| again.turn() == Turn::Worse);
    if is_worse && written == Exit::Done { Exit::Found } else { written }
}

fn all(context: &Context, command: &arguments::Impact, off: &Off) -> Result<Impact, Exit> {
    let runs = context.runs()?;
    let catalogue = Catalogue::read(&runs).map_err(|error| context.journal_error(&error))?;
    let mut read: Vec<(StoredRun, Vec<TakenWith>)> = Vec::new();
    let unread = catalogue.each(&runs, |run| {
        let rows = of_run(&run, command);
        if !rows.is_empty() {
            read.push((run, rows));
        }
    });
    let mut all = Impact {
        instrument: command.instrument().to_owned(),
        error: off.to_string(),
        way: off.way(),
        since: command.since.map(|since| since.to_string()),
        runs: Vec::new(),
        other_tools: 0,
        unread: unread.into_iter().map(|(run, why)| Unread { run, why }).collect(),
    };
    // Where nobody said which instrument it was, it can only have been this one if it is that sort of tool.
    let rows = read.iter().flat_map(|(_, rows)| rows);
    let is_known = |row: &&TakenWith| row.identity.is_some() || row.by_name;
    let tools: BTreeSet<String> = rows.filter(is_known).map(|row| row.tool.clone()).collect();
    for (run, rows) in &mut read {
        let before = rows.len();
        rows.retain(|row| row.identity.is_some() || tools.contains(&row.tool));
        all.other_tools += before - rows.len();
        all.runs.extend(one(run, rows, off));
    }
    Ok(all)
}

/// Nothing where nothing was taken with it.
fn one(run: &StoredRun, rows: &[TakenWith], off: &Off) -> Option<OfRun> {
    let entries: BTreeSet<u64> = rows.iter().filter_map(|row| row.entry).collect();
    if entries.is_empty() {
        return None;
    }
    let lines = run.lines();
    let kept = Kept { book: &run.book, events: &run.events, lines: &lines, pinned: &run.pinned };
    let nobody_said = rows.iter().filter(|row| row.identity.is_none()).filter_map(|row| row.entry);
    Some(OfRun {
        run: run.id.as_str().to_owned(),
        closed: run.state.closed.is_some(),
        nobody_said: nobody_said.collect(),
        again: rejudged(&kept, &entries, off)?,
    })
}

/// Why, where the error fits none of the readings.
fn fits_nothing(all: &Impact) -> Option<&str> {
    let is_corrected = results(all).any(|(_, again)| again.is_corrected);
    let mut why = all.runs.iter().flat_map(|run| &run.again.left_alone).map(|left| left.why.as_str());
    why.next().filter(|_| !is_corrected)
}

/// Readings, fasteners and computed values, with their runs.
fn results(all: &Impact) -> impl Iterator<Item = (&OfRun, &Again)> {
    all.runs.iter().flat_map(|run| {
        let results = run.again.readings.iter().chain(&run.again.values);
        results.map(move |again| (run, again))
    })
}

fn text(all: &Impact) -> Text {
    let since = all.since.as_ref().map(|since| format!(" since {since}")).unwrap_or_default();
    let head = format!("{} {}{since}: {}.", all.instrument, all.error, all.way);
    let text = Text::new().line(Line::new().with(Role::Strong, head).hang(2));
    let text = all.unread.iter().fold(text, |text, Unread { run, why }| {
        let words = format!("{run}  {why}");
        text.line(Line::new().with(Role::Strong, "cannot be read: ").with(Role::Plain, words).hang(4))
    });
    if all.runs.is_empty() {
        let words =
            "Nothing was read with an instrument of that name, and no tool of a procedure is called so.";
        return text.line(Line::plain(words));
    }
    let groups = [
        (Turn::Worse, Role::Bad, "GOOD BEFORE, NOT GOOD NOW"),
        (Turn::Better, Role::Good, "NOT GOOD BEFORE, GOOD NOW"),
        (Turn::Other, Role::Strong, "Another verdict"),
    ];
    let text =
        groups.into_iter().fold(text, |text, (turn, role, heading)| group(text, all, turn, (role, heading)));
    let text = group(rests(text, all), all, Turn::Same, (Role::Strong, "The same verdict, another number"));
    if all.other_tools == 0 {
        return text;
    }
    let words = format!(
        "Left as they are: {} readings with other tools, of which nobody named the instrument.",
        all.other_tools
    );
    text.blank().line(Line::plain(words))
}

fn group(text: Text, all: &Impact, turn: Turn, (role, heading): (Role, &str)) -> Text {
    let meant: Vec<(&OfRun, &Again)> = results(all).filter(|(_, again)| again.turn() == turn).collect();
    if meant.is_empty() {
        let none = turn == Turn::Worse;
        return if none { text.line(Line::plain("No verdict that was good is bad now.")) } else { text };
    }
    let text = text.blank().line(Line::new().with(role, format!("{heading} ({}):", meant.len())));
    meant.into_iter().fold(text, |text, (run, again)| text.line(Line::plain(words(run, again)).hang(4)))
}

/// `2026-10-12-flange, step 1.5, torque of the bolt: 50 N·m, now 46.296 N·m; pass, now fail, 1.2 N·m below the minimum`.
fn words(run: &OfRun, again: &Again) -> String {
    let pass = again.pass.as_ref().map(|pass| format!(", {pass}")).unwrap_or_default();
    let number = if again.is_corrected {
        format!("{}, now {}", again.before, again.after)
    } else {
        again.before.clone()
    };
    let verdict = match again.turn() {
        Turn::Same => format!("{} as before", again.verdict_before),
        _ => format!("{}, now {}", again.verdict_before, again.words),
    };
    let nobody = again.entry.is_some_and(|entry| run.nobody_said.contains(&entry));
    let nobody = if nobody { "; if it was this instrument: nobody said which one it was" } else { "" };
    format!("{}, step {}{pass}, {}: {number}; {verdict}{nobody}", run.run, again.step, again.what)
}

/// What was released and closed on verdicts that no longer stand, and what the error does not fit.
fn rests(text: Text, all: &Impact) -> Text {
    let mut lines: Vec<String> = Vec::new();
    for run in &all.runs {
        lines.extend(run.again.holds.iter().map(|hold| {
            let entries: Vec<String> = hold.entries.iter().map(u64::to_string).collect();
            format!(
                "{}, step {}, hold point {}: released by {} on entry {}, which is no good now",
                run.run,
                hold.step,
                hold.what,
                hold.released.join(" and "),
                entries.join(", ")
            )
        }));
        lines.extend(not_closed(run));
        let left = run.again.left_alone.iter();
        lines.extend(
            left.map(|left| format!("{}, entry {} is left as it is: {}", run.run, left.entry, left.why)),
        );
    }
    if lines.is_empty() {
        return text;
    }
    let text = text.blank().line(Line::new().with(Role::Strong, "What rests on this:"));
    lines.into_iter().fold(text, |text, line| text.line(Line::plain(line).hang(4)))
}

/// So many things that would have been open are named; the JSON form has all.
const MOST_OPEN: usize = 4;

/// That a run would not have been closed with these numbers: its procedure would have gone on otherwise.
fn not_closed(run: &OfRun) -> Option<String> {
    let open = &run.again.open;
    let named: Vec<&str> = open.iter().take(MOST_OPEN).map(String::as_str).collect();
    let more = open.len().saturating_sub(MOST_OPEN);
    let more = if more == 0 { String::new() } else { format!("; and {more} more") };
    (!open.is_empty()).then(|| format!("{} would not have been closed: {}{more}", run.run, named.join("; ")))
}
