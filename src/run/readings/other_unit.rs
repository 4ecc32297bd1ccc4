//! A bare number that would pass in another unit than the one it was taken in.

use crate::procedure::Name;
use crate::quantity::in_other_units;
use crate::run::answered::Answered;
use crate::run::view::View;

impl View<'_> {
    /// The newest entry of a reading in the everyday unit in which its digits would pass; nothing where a unit was typed.
    pub fn would_pass_as(self, name: &Name) -> Option<Answered> {
        let Answered::Quantity(entry) = &self.latest(name)?.value else { return None };
        let passes = |other: &Answered| {
            let judged = self.judge_answer(name, other);
            judged.is_some_and(|judged| judged.judgement.lets_go_on())
        };
        in_other_units(entry).map(Answered::Quantity).find(passes)
    }
}
