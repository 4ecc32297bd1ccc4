//! Something was moved or used: which hold point rests on it.

use crate::procedure::{Hold, Name};
use crate::run::event::Event;
use crate::run::refusal::Refusal;
use crate::run::typed::filled;
use crate::run::view::View;

impl<'run> View<'run> {
    /// The hold points that were released and can have been touched since: those whose protection is in force, and those
    /// that lapse when something is disturbed.
    pub fn can_be_touched(self) -> Vec<(&'run Name, &'run Hold)> {
        let holds = self.book.procedure.holds().iter();
        let protects = |hold: &Hold| hold.protection.is_some() || hold.lapses.when_disturbed;
        holds.filter(|(name, hold)| protects(hold) && self.stands(name)).collect()
    }

    pub(in crate::run) fn disturbed(self, what: String, hold: Option<Name>) -> Result<Event, Refusal> {
        let what = filled("what was disturbed", what)?;
        match hold {
            Some(hold) if self.last_release(&hold).is_none() => {
                Err(Refusal::NeverReleased { hold: self.book.procedure.called(&hold).to_owned() })
            }
            hold => Ok(Event::Disturbed { what, hold }),
        }
    }
}
