use std::fmt;

use jiff::ZonedDateTime;

/// Where the time comes from.
pub trait Clock: fmt::Debug + Send + Sync {
    /// The time now, with the offset that holds where the person is.
    fn now(&self) -> ZonedDateTime;
}

/// The clock of the machine, in the time zone of the machine.
#[derive(Clone, Copy, Debug)]
pub struct RealClock;

impl Clock for RealClock {
    #[expect(clippy::disallowed_methods, reason = "this is the one place that reads the clock")]
    fn now(&self) -> ZonedDateTime {
        ZonedDateTime::now()
    }
}
