//! The clock: what the rest of bayhand asks for the time, and the clock of the machine.

use std::fmt;
use std::sync::OnceLock;
use std::time::{Duration, Instant};

use jiff::ZonedDateTime;

/// Where the time comes from.
pub trait Clock: fmt::Debug + Send + Sync {
    /// The time now, with the offset that holds where the person is.
    fn now(&self) -> ZonedDateTime;

    /// The time since some fixed moment, by a clock that only goes on and that nobody can set.
    fn ticks(&self) -> Duration;
}

/// The clock of the machine, in the time zone of the machine.
#[derive(Clone, Copy, Debug)]
pub struct RealClock;

impl Clock for RealClock {
    #[expect(clippy::disallowed_methods, reason = "this is the one place that reads the clock")]
    fn now(&self) -> ZonedDateTime {
        ZonedDateTime::now()
    }

    #[expect(clippy::disallowed_methods, reason = "this is the one place that reads the clock")]
    fn ticks(&self) -> Duration {
        static FIRST: OnceLock<Instant> = OnceLock::new();
        FIRST.get_or_init(Instant::now).elapsed()
    }
}
