//! The one trait the conversation speaks to.

use std::io;
use std::rc::Rc;
use std::time::Duration;

use super::{Entry, Heard, KeyHint, Line, Text};

/// Beyond this, lines get too long to be read from a metre away.
pub(super) const WIDEST: usize = 100;
/// Below this, nothing useful can be wrapped; the terminal's own wrapping takes over.
pub(super) const NARROWEST: usize = 16;

/// A way to speak to a person and to hear the answer. Object safe: the conversation holds a `&mut dyn Ui`.
///
/// Every method that asks returns [`Heard::Gone`] when nobody can answer any more; an `Err` is only an
/// unexpected failure of the system. Whether an error of [`Ui::say`] means the same is told by [`is_gone`].
pub trait Ui {
    /// Shows styled text, wrapped to the width.
    fn say(&mut self, text: &Text) -> io::Result<()>;

    /// Asks for one of the offered keys, without time-out. Any other key is answered with the list, so that
    /// only [`Heard::Key`] of an offered key, [`Heard::Interrupt`] or [`Heard::Gone`] comes back.
    ///
    /// Keys typed before the prompt was on the screen do not count.
    fn ask_key(&mut self, prompt: &str, keys: &[KeyHint]) -> io::Result<Heard>;

    /// Asks for a line of text.
    fn ask_text(&mut self, prompt: &str, entry: Entry) -> io::Result<Heard>;

    /// Asks for one item of a list: [`Heard::Chosen`] with its place. Where a mark moves, it stands at `start` first. With
    /// no items the error is [`io::ErrorKind::InvalidInput`].
    fn ask_choice(&mut self, prompt: &str, items: &[String], start: usize) -> io::Result<Heard>;

    /// Waits until the time is over ([`Heard::Elapsed`]) or a key is pressed ([`Heard::Key`]).
    fn wait(&mut self, wait: &Wait) -> io::Result<Heard>;

    /// Takes a time: from the call until the next key ([`Heard::Timed`]).
    fn time(&mut self, timing: &Timing) -> io::Result<Heard>;

    /// Takes over what is to be said while the next questions stay unanswered; the question stays. What was to be
    /// said before and is not due is forgotten.
    fn remind(&mut self, ticks: Rc<dyn Fn() -> Duration>, reminders: Vec<Reminder>);

    /// Begins a new screen on a terminal; leaves a separating blank line elsewhere.
    fn clear_for_screen(&mut self) -> io::Result<()>;

    /// Whether what was said before stays in sight: nothing of it needs saying again.
    fn keeps_what_was_said(&self) -> bool;

    /// The columns text is wrapped to.
    fn width(&self) -> usize;

    /// The rows of the screen; in linear output, a usual number.
    fn height(&self) -> usize;
}

/// A time to be taken.
pub struct Timing<'a> {
    /// What is timed: `caught in the jug`.
    pub label: &'a str,
    /// The time since some moment, by a clock that nobody can set.
    pub ticks: &'a dyn Fn() -> Duration,
}

/// A line that is said while a question stays unanswered.
#[derive(Clone, Debug, PartialEq)]
pub struct Reminder {
    /// How long from now.
    pub after: Duration,
    /// What is said.
    pub line: Line,
}

/// A wait to be shown.
pub struct Wait<'a> {
    /// What is waited for: `fluid settles`.
    pub label: &'a str,
    /// How long it lasts from its beginning.
    pub total: Duration,
    /// How much of it is gone now; asked again and again. It may well begin above zero, because a wait goes
    /// on while the program is not running.
    pub elapsed: &'a dyn Fn() -> Duration,
    /// The clock time at which it is over, as it is to be read: `21:40`.
    pub over_at: &'a str,
}

impl Wait<'_> {
    /// What is left; zero when it is over.
    pub fn left(&self) -> Duration {
        self.total.saturating_sub((self.elapsed)())
    }

    /// `12 min 30 s left, over at 21:40`.
    pub(super) fn outlook(&self, left: Duration) -> String {
        format!("{} left, over at {}", remaining(left), self.over_at)
    }
}

/// `1 h 5 min`, `12 min 30 s`, `8 s`. A begun second counts, so that 0 s is never shown before the end.
fn remaining(left: Duration) -> String {
    let seconds = left.as_secs() + u64::from(left.subsec_nanos() > 0);
    match (seconds / 3600, seconds / 60 % 60, seconds % 60) {
        (0, 0, s) => format!("{s} s"),
        (0, min, s) => format!("{min} min {s} s"),
        (h, min, _) => format!("{h} h {min} min"),
    }
}

/// Whether this failure means that nobody is there any more: a closed pipe, a hung-up line.
pub fn is_gone(error: &io::Error) -> bool {
    use io::ErrorKind::{
        BrokenPipe, ConnectionAborted, ConnectionReset, NotConnected, UnexpectedEof, WriteZero,
    };
    /// `EIO` and `ENXIO`: what a terminal answers after a hang-up, and what it answers when it is opened again
    /// then. The standard library has no names for them.
    const HUNG_UP: [i32; 2] = [5, 6];
    let kinds = [BrokenPipe, ConnectionAborted, ConnectionReset, NotConnected, UnexpectedEof, WriteZero];
    kinds.contains(&error.kind()) || error.raw_os_error().is_some_and(|code| HUNG_UP.contains(&code))
}

/// Turns the failures that have a meaning to the conversation into what was heard.
pub(super) fn heard(result: io::Result<Heard>) -> io::Result<Heard> {
    match result {
        Err(error) if is_gone(&error) => Ok(Heard::Gone),
        Err(error) if error.kind() == io::ErrorKind::Interrupted => Ok(Heard::Interrupt),
        other => other,
    }
}

/// A choice among nothing is a mistake of the caller, not an answer.
pub(super) fn refuse_empty(items: &[String]) -> io::Result<()> {
    if items.is_empty() {
        return Err(io::Error::new(io::ErrorKind::InvalidInput, "there is nothing to choose from"));
    }
    Ok(())
}
