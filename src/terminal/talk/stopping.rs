//! Whether the job can be left as it stands, and where it can be left next.

use super::words;
use crate::procedure::Step;
use crate::run::{CanStop, Unsafe, View};
use crate::terminal::{Line, Role, Text};

/// The answer to "can I stop here?".
pub(super) fn can_stop(view: View<'_>) -> Text {
    match view.can_stop() {
        CanStop::Yes(state) => {
            let line =
                Line::new().with(Role::Good, "You can stop here: ").with(Role::Plain, format!("{state}."));
            line.hang(2).into()
        }
        CanStop::No(place) => no(view, &place),
    }
}

/// The same in one line, for a display of everything.
pub(super) fn in_short(view: View<'_>) -> Line {
    match view.can_stop() {
        CanStop::Yes(state) => Line::plain(format!("Safe stopping point: yes, {state}")).hang(2),
        CanStop::No(place) => {
            let next = match place.next {
                Some((step, _)) => {
                    format!("the next is after step {}, {} away", step.number, steps(place.away))
                }
                None => format!("the end of the job is {} away", steps(place.away)),
            };
            Line::plain(format!("Safe stopping point: no; {next}")).hang(2)
        }
    }
}

fn no(view: View<'_>, place: &Unsafe<'_>) -> Text {
    let head =
        Line::new().with(Role::Bad, "This is no safe stopping point.").with(Role::Plain, begun(view, place));
    let next = match place.next {
        Some((step, state)) => format!(
            "The next one is after step {} ({}), {} away: {state}.",
            step.number,
            words::title(view, step),
            steps(place.away)
        ),
        None => format!("None lies ahead; the end of the job is {} away.", steps(place.away)),
    };
    Text::from(head.hang(2)).line(Line::plain(next).hang(2))
}

fn begun(view: View<'_>, place: &Unsafe<'_>) -> String {
    let told = |step: &Step| format!("step {} ({})", step.number, words::title(view, step));
    match place.begun {
        Some(step) => format!(" Begun: {}.", told(step)),
        None => {
            view.last_done().last().map_or_else(String::new, |step| format!(" Last done: {}.", told(step)))
        }
    }
}

fn steps(count: usize) -> String {
    if count == 1 { "1 step".to_owned() } else { format!("{count} steps") }
}
