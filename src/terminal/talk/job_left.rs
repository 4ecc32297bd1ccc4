//! What the runs of a job have left: protections in force, loose ends.

use jiff::ZonedDateTime;

use super::words;
use crate::job::{self, JobEnd};
use crate::session::StoredRun;
use crate::terminal::{Line, Role, Text};

/// The protections in force: those that outlast their runs, each with who looked at it last, and those of open runs.
pub(super) fn protections(runs: &[StoredRun], now: &ZonedDateTime) -> Text {
    let handed_on = job::protections(runs);
    let handed_on = handed_on.iter().map(words::inherited(now));
    let open = runs.iter().filter(|run| run.state.closed.is_none());
    let of_runs = open.flat_map(|run| {
        let view = run.view(now);
        let own = view.protections().into_iter();
        let own = own.filter(|one| !run.book.procedure.hold(one.hold).is_some_and(|hold| hold.stays));
        own.map(|one| {
            let lapsed = one.lapsed.as_ref().map_or("", |_| ", LAPSED: verify again");
            format!(
                "{} (since {}, run {}{lapsed})",
                one.what,
                words::clock(&one.since.at, now),
                run.id.as_str()
            )
        })
        .collect::<Vec<_>>()
    });
    let lines: Vec<String> = handed_on.chain(of_runs).collect();
    if lines.is_empty() {
        return Line::new().with(Role::Faint, "In force: no protection").into();
    }
    lines.into_iter().fold(Text::new(), |text, words| {
        text.line(Line::new().with(Role::Strong, "In force: ").with(Role::Protection, words).hang(2))
    })
}

/// The loose ends, the open ones first.
pub(super) fn loose_ends(runs: &[StoredRun]) -> Text {
    let ends = job::loose_ends(runs);
    let (open, over): (Vec<&JobEnd>, Vec<&JobEnd>) = ends.iter().partition(|end| end.became.is_none());
    let text = open.iter().fold(Text::new(), |text, end| {
        let line = Line::new().with(Role::Bad, "Loose end: ").with(Role::Plain, left(end));
        text.line(line.hang(2))
    });
    over.iter().fold(text, |text, end| {
        let became = end.became.as_ref().map(|(became, run, entry)| {
            format!("{}; {} (run {run}, entry {entry})", left(end), became.words())
        });
        text.line(Line::new().with(Role::Faint, format!("Was loose: {}", became.unwrap_or_default())).hang(2))
    })
}

fn left(end: &JobEnd) -> String {
    let entry = end.left.as_ref().map(|(entry, _)| format!(", entry {entry}")).unwrap_or_default();
    format!("{} ({}, run {}{entry})", end.end.what, end.left_at, end.end.run)
}
