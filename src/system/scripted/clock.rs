//! A clock that stands still, or goes on by a fixed step.

use std::sync::{Mutex, MutexGuard, PoisonError};
use std::time::Duration;

use jiff::{SignedDuration, ZonedDateTime};

use crate::system::Clock;

/// A clock that stands still, or goes on by a fixed step each time it is read.
#[derive(Debug)]
pub struct ScriptedClock {
    now: Mutex<ZonedDateTime>,
    step: SignedDuration,
}

impl ScriptedClock {
    /// A clock that stands still.
    pub fn standing(now: ZonedDateTime) -> Self {
        Self::ticking(now, SignedDuration::ZERO)
    }

    /// A clock that shows `now` when first read and goes on by `step` with each reading.
    pub fn ticking(now: ZonedDateTime, step: SignedDuration) -> Self {
        let now = Mutex::new(now);
        Self { now, step }
    }

    /// Puts the clock to a time, also an earlier one.
    pub fn set(&self, now: ZonedDateTime) {
        *self.shown() = now;
    }

    /// Lets time pass; a negative amount puts the clock back. Stops at the end of jiff's range (years -9999 to 9999).
    pub fn pass(&self, amount: SignedDuration) {
        let mut now = self.shown();
        *now = now.saturating_add(amount);
    }

    fn shown(&self) -> MutexGuard<'_, ZonedDateTime> {
        self.now.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl Clock for ScriptedClock {
    fn now(&self) -> ZonedDateTime {
        let mut now = self.shown();
        let shown = now.clone();
        *now = now.saturating_add(self.step);
        shown
    }

    /// Counts from 1970, as the clock stands; it goes back where the clock is put back.
    fn ticks(&self) -> Duration {
        let since = self.now().timestamp().duration_since(jiff::Timestamp::UNIX_EPOCH);
        Duration::try_from(since).unwrap_or_default()
    }
}
