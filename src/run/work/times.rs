//! What the times of the entries say: where the clock went back, and what was done before it was entered.

use std::collections::BTreeMap;

use jiff::{SignedDuration, ZonedDateTime};

use crate::run::stamp::Stamp;

/// Facts about time.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Times {
    /// Where the clock of the entries did not simply go on.
    pub jumps: Vec<Jump>,
    /// When things were really done, by the entry that says so.
    pub stated: BTreeMap<u64, Stated>,
}

/// An entry before which the clock did not simply go on. A clock that was set forward cannot be told from time that
/// went by: it is not here.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Jump {
    /// The entry.
    pub stamp: Stamp,
    /// How the clock jumped.
    pub how: Jumped,
}

/// How the clock of the entries jumped.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Jumped {
    /// It was set back by this much, or more: some time went by too.
    Back(SignedDuration),
    /// It shows the time of another zone, or of another season.
    Offset {
        /// The offset of the entry before.
        from: String,
        /// The offset of this one.
        to: String,
    },
}

/// What was done before it was entered.
#[derive(Clone, Debug, PartialEq)]
pub struct Stated {
    /// When it was done, by a person's word.
    pub done: ZonedDateTime,
    /// Why it was entered late.
    pub reason: String,
}

impl std::fmt::Display for Jump {
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let entry = self.stamp.seq;
        match &self.how {
            Jumped::Back(by) => write!(
                formatter,
                "entry {entry} bears a time {} before that of entry {}: the clock was set back. Entries count in \
                 their order; a clock set forward leaves no trace",
                length(*by),
                entry.saturating_sub(1)
            ),
            Jumped::Offset { from, to } => write!(
                formatter,
                "from entry {entry} on the clock shows {to} in place of {from}: another zone, or summer time"
            ),
        }
    }
}

/// A stretch of time in words: `1 h 5 min`, `3 min`, `12 s`; zero and less is `0 s`.
pub(crate) fn length(time: SignedDuration) -> String {
    let seconds = time.as_secs().max(0);
    let (days, hours, minutes) = (seconds / 86_400, seconds / 3600 % 24, seconds / 60 % 60);
    let parts = match (days, hours, minutes) {
        (0, 0, 0) => [(seconds, "s"), (0, "")],
        (0, 0, _) if minutes < 10 => [(minutes, "min"), (seconds % 60, "s")],
        (0, 0, _) => [(minutes, "min"), (0, "")],
        (0, _, _) => [(hours, "h"), (minutes, "min")],
        _ => [(days, "d"), (hours, "h")],
    };
    let [first, second] = parts;
    let second = if second.0 > 0 { format!(" {} {}", second.0, second.1) } else { String::new() };
    format!("{} {}{second}", first.0, first.1)
}
