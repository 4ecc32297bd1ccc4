//! A second reading by another person, who has not seen the first.

use std::cmp::Ordering;

use super::apply::Next;
use super::book::Book;
use super::decide::same_person;
use super::entry;
use super::event::{Answered, Disposition};
use super::people::{PeopleAsk, PeopleEvent};
use super::people_facts::SecondTaken;
use super::people_refusal::PeopleRefusal;
use super::prompt::{Ask, SlipCheck};
use super::refusal::Refusal;
use super::state::{Departure, State, Taken};
use super::view::View;
use crate::procedure::{Name, StepId};
use crate::quantity::Quantity;

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

impl Book {
    /// How the newest attempt at a reading stands to its second one.
    pub fn second_standing(&self, state: &State, reading: &Name) -> SecondStanding {
        let wanted = self.procedure.reading(reading).and_then(|declared| declared.second.as_ref());
        let first = state.latest(reading).filter(|_| !state.again.contains(reading));
        let (Some(wanted), Some(first)) = (wanted, first) else {
            return SecondStanding::NotWanted;
        };
        let Some(second) = state.second_of(reading, first) else {
            return SecondStanding::Blind;
        };
        let settled = (second.stamp.seq, state.attempts(reading));
        let accepted = state.people_facts.differences.get(reading) == Some(&settled);
        let agree = accepted || agree(&first.value, &second.value, wanted.agree.as_ref());
        if agree { SecondStanding::Agree } else { SecondStanding::Differ }
    }

    /// Whether a reading must not be shown: somebody else reads it now.
    pub fn is_blind(&self, state: &State, reading: &Name) -> bool {
        self.second_standing(state, reading) == SecondStanding::Blind
    }
}

impl State {
    /// The second reading that belongs to an attempt at the first.
    pub fn second_of(&self, reading: &Name, first: &Taken) -> Option<&SecondTaken> {
        let seconds = self.people_facts.seconds.get(reading)?;
        seconds.iter().rev().find(|second| second.of == first.place)
    }
}

/// Whether two readings say the same; of quantities, whether they are no further apart than `apart`.
fn agree(first: &Answered, second: &Answered, apart: Option<&Quantity>) -> bool {
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

impl View<'_> {
    /// Whether a reading must not be shown: somebody else reads it now.
    pub fn is_blind(self, reading: &Name) -> bool {
        self.book.is_blind(self.state, reading)
    }

    /// Whether nothing about a second reading stands in the way.
    pub(super) fn second_stands(self, reading: &Name) -> bool {
        let standing = self.book.second_standing(self.state, reading);
        matches!(standing, SecondStanding::NotWanted | SecondStanding::Agree)
    }

    /// What is asked about the second reading of one that was taken.
    pub(super) fn ask_second(self, reading: &Name) -> Option<Ask> {
        match self.book.second_standing(self.state, reading) {
            SecondStanding::Blind => Some(Ask::People(PeopleAsk::Second(reading.clone()))),
            SecondStanding::Differ => Some(Ask::People(PeopleAsk::Differs(reading.clone()))),
            SecondStanding::NotWanted | SecondStanding::Agree => None,
        }
    }
}

/// The second reading, by another person than the first.
pub(super) fn read(
    view: View<'_>,
    reading: &Name,
    text: &str,
    slip: SlipCheck,
) -> Result<PeopleEvent, Refusal> {
    let declared = view.book.procedure.reading(reading).and_then(|declared| declared.second.as_ref());
    let role = &declared.ok_or(Refusal::NotOffered)?.by;
    let person = view.person(role);
    let first = view.state.latest(reading).ok_or(Refusal::NotOffered)?;
    let step = view.book.procedure.taken_at(reading).and_then(|step| view.book.procedure.step(step));
    let doers = step.map(super::looked_over::doers).unwrap_or_default();
    let mut readers = doers.iter().filter_map(|role| view.state.person_at(role, first.place));
    if readers.any(|reader| same_person(reader, &person)) {
        return Err(PeopleRefusal::OwnWork { person, role: role.to_string(), alone: None }.into());
    }
    let value = entry::answered(view, reading, text, slip)?;
    Ok(PeopleEvent::SecondRead { reading: reading.clone(), value, person })
}

/// Two readings that differ are gone on with; never at a hold point.
pub(super) fn accept(
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
    pub(super) fn read_second(&mut self, reading: &Name, value: &Answered, person: &str) {
        let Some(of) = self.state.latest(reading).map(|first| first.place) else {
            return;
        };
        let second =
            SecondTaken { value: value.clone(), person: person.to_owned(), stamp: self.stamp.clone(), of };
        self.state.people_facts.seconds.entry(reading.clone()).or_default().push(second);
    }

    pub(super) fn accept_difference(&mut self, reading: &Name, disposition: Disposition, reason: &str) {
        self.depart(Departure::Differs(reading.clone()), reason, Some(disposition));
        let second = self.state.people_facts.seconds.get(reading).and_then(|seconds| seconds.last());
        if let Some(seq) = second.map(|second| second.stamp.seq) {
            let attempts = self.state.attempts(reading);
            self.state.people_facts.differences.insert(reading.clone(), (seq, attempts));
        }
    }
}
