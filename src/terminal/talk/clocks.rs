//! Clocks that run while something else is asked, and what the clock of the entries shows.

use std::time::Duration;

use jiff::ZonedDateTime;

use super::words;
use crate::procedure::Name;
use crate::run::{Ask, RunningWait, View, WaitStands, length};
use crate::terminal::{Line, Reminder, Role, Text};

/// The clocks that run, but for the one that is waited for at this question. The resume brief tells them itself.
pub(super) fn clocks(view: View<'_>, ask: &Ask) -> Text {
    let asked = match ask {
        Ask::Brief => return Text::new(),
        Ask::Wait { wait, .. } => Some(wait),
        _ => None,
    };
    let others = view.running_waits().into_iter().filter(|wait| asked != Some(&wait.name));
    others.fold(Text::new(), |text, wait| text.line(clock(view, &wait)))
}

/// A clock that runs: since when, until when, and what is due.
pub fn clock(view: View<'_>, wait: &RunningWait) -> Line {
    let at = |moment: &ZonedDateTime| words::clock(moment, view.now);
    let gone = length(wait.began.duration_until(view.now));
    let is_due = wait.stands(view.now) == WaitStands::Due;
    let (began, until) = match &wait.until {
        // How long it has run matters no more.
        Some(until) if is_due => (format!("{} since {}", wait.what, at(until)), None),
        until => {
            let until = until.as_ref().map(|until| format!(", over at {}", at(until)));
            (format!("{}: since {} ({gone})", wait.what, at(&wait.began)), until)
        }
    };
    let latest = wait.latest.as_ref().map(|latest| format!(", at the latest until {}", at(latest)));
    let times = format!("{began}{}{}", until.unwrap_or_default(), latest.unwrap_or_default());
    let (role, word) = match wait.stands(view.now) {
        WaitStands::Runs => (Role::Strong, "Clock running: "),
        WaitStands::Due => (Role::Caution, "DUE: "),
        WaitStands::Overdue => (Role::Warning, "TIME MISSED: "),
    };
    // A longest time alone: there is nothing to wait for.
    let only_runs = wait.until.is_none() && wait.stands(view.now) == WaitStands::Due;
    let (role, word) = if only_runs { (Role::Strong, "Clock running: ") } else { (role, word) };
    Line::new().with(role, word).with(Role::Plain, times).hang(2)
}

/// What is said of these clocks while a question stays unanswered.
pub(super) fn reminders(view: View<'_>, ask: &Ask) -> Vec<Reminder> {
    let waited_for = |name: &Name| matches!(ask, Ask::Wait { wait, .. } if wait == name);
    let waits = view.running_waits().into_iter().filter(|wait| !waited_for(&wait.name));
    waits.flat_map(|wait| of_wait(view, &wait)).collect()
}

fn of_wait(view: View<'_>, wait: &RunningWait) -> Vec<Reminder> {
    let at = |moment: &ZonedDateTime| words::clock(moment, view.now);
    let due = wait.until.as_ref().map(|until| (until, format!("DUE: {} since {}", wait.what, at(until))));
    let missed = wait.latest.as_ref();
    let missed =
        missed.map(|latest| (latest, format!("TIME MISSED: {}, at the latest {}", wait.what, at(latest))));
    let to_come = due.into_iter().chain(missed).filter(|(moment, _)| *view.now < **moment);
    let reminder = |(moment, words): (&ZonedDateTime, String)| {
        let after = Duration::try_from(view.now.duration_until(moment)).unwrap_or_default();
        // What must not be missed is missed only when its time has wholly gone.
        let after = after + Duration::from_millis(1);
        Reminder { after, line: Line::new().with(Role::Warning, words).hang(2) }
    };
    to_come.map(reminder).collect()
}

/// What there is to be known of the clock of the entries.
pub(super) fn jumps(view: View<'_>) -> Text {
    let jumps = view.state.times.jumps.iter();
    jumps.fold(Text::new(), |text, jump| {
        let words = jump.to_string();
        text.line(Line::new().with(Role::Strong, "Clock: ").with(Role::Plain, words).hang(2))
    })
}

/// A step that comes too late: since when, and what the procedure says about it.
pub(super) fn late(view: View<'_>, wait: &Name, since: &ZonedDateTime) -> Text {
    let what = view.book.procedure.called(wait);
    let over = length(since.duration_until(view.now));
    let words = format!("{what}: at the latest {}, and that was {over} ago.", words::clock(since, view.now));
    let text = Text::from(Line::new().with(Role::Warning, "TIME MISSED: ").with(Role::Plain, words).hang(2));
    let has_path = view.book.has_path_for_missed(wait);
    let path = has_path.then_some("The procedure has steps for that; this step is then not applicable.");
    path.into_iter().fold(text, |text, path| text.line(Line::plain(path)))
}

/// That the row of a log which has just ended came too late, and by how much.
pub(super) fn late_row(view: View<'_>, repeat: &Name) -> Text {
    let pass = view.round(repeat).and_then(|round| round.ended.last().copied());
    let late = pass.and_then(|pass| view.late_row(repeat, pass));
    late.map(|late| Line::new().with(Role::Warning, format!("This row is {late}.")).hang(2).into())
        .unwrap_or_default()
}
