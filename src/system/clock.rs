//! The clock: what the rest of bayhand asks for the time, and the clock of the machine.

use std::fmt;
use std::sync::OnceLock;
use std::time::{Duration, Instant, SystemTime, UNIX_EPOCH};

use jiff::{Timestamp, ZonedDateTime};

use super::zone;

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
        ZonedDateTime::new(moment_of(SystemTime::now()), zone::of_machine(self.ticks()))
    }

    #[expect(clippy::disallowed_methods, reason = "this is the one place that reads the clock")]
    fn ticks(&self) -> Duration {
        static FIRST: OnceLock<Instant> = OnceLock::new();
        FIRST.get_or_init(Instant::now).elapsed()
    }
}

/// The moment that a clock shows; before the year 1 or after 9998 no time can be written down, and the nearest that can
/// stands for it. Whether it makes sense is asked elsewhere.
pub fn moment_of(shown: SystemTime) -> Timestamp {
    /// The second day of the year 1, and the last but one of 9998, in days from 1970 (in the calendar of ISO 8601).
    const FIRST: i64 = -719_161 * DAY;
    const LAST: i64 = 2_932_530 * DAY;
    const DAY: i64 = 86_400;
    let seconds = match (shown.duration_since(UNIX_EPOCH), UNIX_EPOCH.duration_since(shown)) {
        (Ok(since), _) => i64::try_from(since.as_secs()).unwrap_or(LAST),
        (_, Ok(before)) => i64::try_from(before.as_secs()).map_or(FIRST, |before| -before),
        (Err(_), Err(_)) => 0,
    };
    let exact = Timestamp::try_from(shown).ok().filter(|_| (FIRST..LAST).contains(&seconds));
    exact.or_else(|| Timestamp::from_second(seconds.clamp(FIRST, LAST)).ok()).unwrap_or_default()
}
