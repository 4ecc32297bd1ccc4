//! A run at one moment: what it goes by, what has happened, what time it is.

use jiff::ZonedDateTime;

use super::book::Book;
use super::state::State;
use super::world::Known;

/// A run at one moment. Everything that is worked out from its facts is a method of this.
#[derive(Clone, Copy)]
pub struct View<'run> {
    /// What the run goes by.
    pub book: &'run Book,
    /// What has happened.
    pub state: &'run State,
    /// What time it is.
    pub now: &'run ZonedDateTime,
}

impl<'run> View<'run> {
    /// The names of the procedure as they stand.
    pub fn known(self) -> Known<'run> {
        Known::new(self.book, self.state)
    }
}
