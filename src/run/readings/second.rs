//! A second reading by another person, who has not seen the first.

use std::cmp::Ordering;

use crate::procedure::{Name, StepId};
use crate::quantity::Quantity;
use crate::run::answered::{Answered, Disposition};
use crate::run::apply::Next;
use crate::run::people::event::{PeopleAsk, PeopleEvent};
use crate::run::people::facts::SecondTaken;
use crate::run::people::refusal::PeopleRefusal;
use crate::run::prompt::{Ask, SlipCheck};
use crate::run::readings::entry;
use crate::run::refusal::Refusal;
use crate::run::typed::same_person;
use crate::run::view::View;
use crate::run::work::deviation::Departure;

/// How a reading stands to its second one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SecondStanding {
    /// None is wanted, or there is no first reading yet.
    NotWanted,
    /// The first is there, and nobody else may see it until the second is.
    Blind,
    /// They agree, or what they differ by is gone on with.
    Agree,
    /// They differ.
    Differ,
}

/// Whether two readings say the same; of quantities, whether they are no further apart than `apart`.
pub(in crate::run) fn agree(first: &Answered, second: &Answered, apart: Option<&Quantity>) -> bool {
    match (first, second) {
        (Answered::Quantity(first), Answered::Quantity(second)) => {
            let (first, second) = (&first.typed, &second.typed);
            apart.map_or_else(
                || first.compare(second) == Ok(Ordering::Equal),
                |apart| exceeds_by(first, second, apart) && exceeds_by(second, first, apart),
            )
        }
        (Answered::Text(first), Answered::Text(second)) => same_person(first, second),
        _ => first == second,
    }
}

/// Whether one is at most so much more than the other.
fn exceeds_by(one: &Quantity, other: &Quantity, most: &Quantity) -> bool {
    let more = one.minus(other);
    more.is_ok_and(|more| more.compare(most).is_ok_and(Ordering::is_le))
}

impl<'run> View<'run> {
    /// How the newest attempt at a reading stands to its second one.
    pub fn second_standing(self, reading: &Name) -> SecondStanding {
        let wanted = self.book.procedure.reading(reading).and_then(|declared| declared.second.as_ref());
        let (Some(wanted), Some(attempts)) = (wanted, self.entered(reading)) else {
            return SecondStanding::NotWanted;
        };
        let Some(first) = attempts.latest().filter(|_| !attempts.is_again()) else {
            return SecondStanding::NotWanted;
        };
        let Some(second) = attempts.second_of(first) else {
            return SecondStanding::Blind;
        };
        // Whatever was entered since opens the question anew.
        let newest = attempts.taken.iter().map(|taken| taken.stamp.seq).max().unwrap_or_default();
        let since = newest.max(second.stamp.seq);
        let accepted = attempts.difference.is_some_and(|accepted| accepted > since);
        let agree = accepted || agree(&first.value, &second.value, wanted.agree.as_ref());
        if agree { SecondStanding::Agree } else { SecondStanding::Differ }
    }

    /// The second reading that belongs to the newest attempt at the first.
    pub fn second_of(self, reading: &Name) -> Option<&'run SecondTaken> {
        let attempts = self.entered(reading)?;
        attempts.second_of(attempts.latest()?)
    }

    /// Whether a reading must not be shown: somebody else reads it now.
    pub fn is_blind(self, reading: &Name) -> bool {
        self.second_standing(reading) == SecondStanding::Blind
    }

    /// Whether nothing about a second reading stands in the way.
    pub(in crate::run) fn second_stands(self, reading: &Name) -> bool {
        matches!(self.second_standing(reading), SecondStanding::NotWanted | SecondStanding::Agree)
    }

    /// What is asked about the second reading of one that was taken.
    pub(in crate::run) fn ask_second(self, reading: &Name) -> Option<Ask> {
        match self.second_standing(reading) {
            SecondStanding::Blind => Some(Ask::People(PeopleAsk::Second(reading.clone()))),
            SecondStanding::Differ => Some(Ask::People(PeopleAsk::Differs(reading.clone()))),
            SecondStanding::NotWanted | SecondStanding::Agree => None,
        }
    }
}

/// The second reading, by another person than the first.
pub(in crate::run) fn read(
    view: View<'_>,
    reading: &Name,
    text: &str,
    slip: SlipCheck,
) -> Result<PeopleEvent, Refusal> {
    let declared = view.book.procedure.reading(reading).and_then(|declared| declared.second.as_ref());
    let role = &declared.ok_or(Refusal::NotOffered)?.by;
    let person = view.person(role);
    let first = view.latest(reading).ok_or(Refusal::NotOffered)?;
    let step = view.book.procedure.taken_at(reading).and_then(|step| view.book.procedure.step(step));
    let doers = step.map(crate::run::people::oversight::doers).unwrap_or_default();
    let mut readers = doers.iter().filter_map(|role| view.state.people.at(role, first.place));
    if readers.any(|reader| same_person(reader, &person)) {
        return Err(PeopleRefusal::OwnWork { person, role: role.to_string(), alone: None }.into());
    }
    let value = entry::answered(view, reading, text, slip)?;
    Ok(PeopleEvent::SecondRead { reading: reading.clone(), value, person })
}

/// Two readings that differ are gone on with; never at a hold point.
pub(in crate::run) fn accept(
    view: View<'_>,
    step: Option<StepId>,
    reading: &Name,
    disposition: Disposition,
    reason: String,
) -> Result<PeopleEvent, Refusal> {
    let step = step.and_then(|step| view.book.procedure.step(step));
    if step.is_some_and(|step| step.hold.is_some()) {
        return Err(Refusal::HoldPoint("gone on with when two readings differ"));
    }
    Ok(PeopleEvent::DifferenceAccepted { reading: reading.clone(), disposition, reason })
}

impl Next<'_> {
    pub(in crate::run) fn read_second(&mut self, reading: &Name, value: &Answered, person: &str) {
        let stamp = self.stamp.clone();
        let attempts = self.said().reading_mut(reading);
        let Some(of) = attempts.latest().map(|first| first.place) else { return };
        let (value, person) = (value.clone(), person.to_owned());
        attempts.seconds.push(SecondTaken { value, person, stamp, of });
    }

    pub(in crate::run) fn accept_difference(
        &mut self,
        reading: &Name,
        disposition: Disposition,
        reason: &str,
    ) {
        self.depart(Departure::Differs(reading.clone()), reason, Some(disposition));
        let seq = self.stamp.seq;
        self.said().reading_mut(reading).difference = Some(seq);
    }
}
