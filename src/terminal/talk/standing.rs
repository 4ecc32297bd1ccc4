//! Where a run stands: everything that is not finished, and every step, on one display.

use super::{frame, look, stopping, words};
use crate::run::{DueAt, Leave, Left, Sitting, View};
use crate::terminal::{Line, Role, Text};

/// Where a run stands.
pub fn standing(view: View<'_>) -> Text {
    let prompt = view.next();
    let procedure = &view.book.procedure;
    let title = format!("{}, revision {}", procedure.title(), procedure.header().revision);
    let text = Text::new()
        .line(Line::new().with(Role::Strong, title))
        .line(sitting(view))
        .line(frame::in_force(view));
    let text = text.line(at(view)).then(within(view)).line(stopping::in_short(view)).then(clocks(view));
    let text = text.then(open(view)).then(super::loose::open(view)).then(dues(view));
    let text = text.then(super::fastening::standing(view)).blank();
    text.then(look::steps(view, &prompt))
}

/// What is said when a sitting ends by a person's word: the protections that stay in force.
pub fn resting(view: View<'_>) -> Text {
    Text::new().line(sitting(view)).line(stopping::in_short(view)).line(frame::in_force(view))
}

/// What is said when a sitting ends without a word: what stays in force, and what is asked first next time.
pub fn left_open(view: View<'_>) -> Text {
    Text::new()
        .line(
            Line::plain("The run is not finished. How things stand is asked when it is taken up again.")
                .hang(2),
        )
        .line(stopping::in_short(view))
        .line(frame::in_force(view))
}

fn sitting(view: View<'_>) -> Line {
    let words = match (&view.state.closed, &view.state.left) {
        (Some(stamp), _) => format!("Closed {}", words::clock(&stamp.at, view.now)),
        (None, Some(left)) if view.state.sitting == Sitting::Resting => {
            let how = match left.how {
                Leave::Suspend => "Suspended",
                Leave::Stop => "STOPPED",
            };
            let when = words::clock(&left.stamp.at, view.now);
            format!("{how} {when}: {}. State of things: {}", left.reason, state_of_things(view, left))
        }
        _ => "Open, not suspended".to_owned(),
    };
    Line::plain(words).hang(2)
}

/// The state that was said last: when the sitting was ended, or after the protections were seen to.
fn state_of_things<'run>(view: View<'run>, left: &'run Left) -> &'run str {
    let found = view.state.interruption.found.as_ref();
    found.filter(|(_, stamp)| stamp.seq > left.stamp.seq).map_or(&left.state, |(state, _)| state)
}

/// The clocks that run, and what is to be known of the clock of the entries.
fn clocks(view: View<'_>) -> Text {
    let waits = view.running_waits().into_iter();
    let waits = waits.fold(Text::new(), |text, wait| text.line(super::clocks::clock(view, &wait)));
    waits.then(super::clocks::jumps(view))
}

fn at(view: View<'_>) -> Line {
    let words = view.step_stood_at().map(|step| format!("{} {}", step.number, words::text(view, &step.text)));
    Line::new()
        .with(Role::Strong, "At: ")
        .with(Role::Plain, words.unwrap_or_else(|| "no step".to_owned()))
        .hang(2)
}

/// The procedures within procedures, the outermost first, each with the step to return to.
fn within(view: View<'_>) -> Text {
    let stack = view.step_stood_at().map(|step| view.within(step.id)).unwrap_or_default();
    stack.iter().fold(Text::new(), |text, within| {
        let words = format!("{} {}", within.step.number, words::within(within));
        text.line(Line::new().with(Role::Strong, "Return: ").with(Role::Plain, words).hang(2))
    })
}

/// Deferred steps, hold points not released and deviations without a disposition.
fn open(view: View<'_>) -> Text {
    let items = view.open_items();
    let head = Line::plain(format!("Still open: {}", items.len()));
    let worth_a_line = items.iter().filter(|item| item.stands_out());
    worth_a_line
        .fold(Text::new().line(head), |text, item| text.line(Line::plain(item.to_string()).indent(2).hang(2)))
}

/// What falls due after the job.
fn dues(view: View<'_>) -> Text {
    let line = |due: &DueAt<'_>| Line::plain(format!("{}: {due}", due.what)).indent(2).hang(2);
    let dues = view.dues();
    let head = (!dues.is_empty()).then(|| Line::plain("Due"));
    dues.iter().map(line).fold(head.into_iter().fold(Text::new(), Text::line), Text::line)
}
