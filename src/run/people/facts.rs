//! What was said of the people of a run: who had which role when, who took over from whom.

use std::collections::BTreeMap;

use crate::procedure::Name;
use crate::run::answered::Answered;
use crate::run::stamp::Stamp;

/// What was said of the people of a run.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PeopleFacts {
    /// Who had a role from which entry on, in order.
    held: BTreeMap<Name, Vec<Held>>,
    /// Every turnover, in order.
    pub turnovers: Vec<Turnover>,
    /// The entry of the last pre-job brief.
    pub briefed: Option<u64>,
}

/// That somebody has a role.
#[derive(Clone, Debug, PartialEq)]
pub struct Held {
    /// The name.
    pub person: String,
    /// When it was named.
    pub stamp: Stamp,
    /// When it was last said who has the role: named, or the same as before.
    pub said: Stamp,
    /// What the name was said to be before, in order.
    pub before: Vec<(String, String, Stamp)>,
}

impl Held {
    /// What the name was said to be at an entry.
    fn name_at(&self, entry: u64) -> &str {
        let later = self.before.iter().find(|(_, _, corrected)| corrected.seq > entry);
        later.map_or(&self.person, |(name, ..)| name)
    }
}

/// That somebody took over a role.
#[derive(Clone, Debug, PartialEq)]
pub struct Turnover {
    /// The role.
    pub role: Name,
    /// Who had it before.
    pub from: String,
    /// What the outgoing person says, where it is known.
    pub note: Option<String>,
    /// When.
    pub stamp: Stamp,
    /// When the incoming person accepted.
    pub accepted: Option<Stamp>,
}

/// A second reading.
#[derive(Clone, Debug, PartialEq)]
pub struct SecondTaken {
    /// What was read.
    pub value: Answered,
    /// By whom.
    pub person: String,
    /// When.
    pub stamp: Stamp,
    /// The place of the first reading that it belongs to.
    pub of: u64,
}

impl PeopleFacts {
    /// Who has a role now.
    pub fn get(&self, role: &Name) -> Option<&String> {
        self.last(role).map(|held| &held.person)
    }

    /// Whether anybody was named yet.
    pub fn is_empty(&self) -> bool {
        self.held.is_empty()
    }

    /// Everybody who had a role, in order.
    pub fn held(&self, role: &Name) -> &[Held] {
        self.held.get(role).map(Vec::as_slice).unwrap_or_default()
    }

    fn last(&self, role: &Name) -> Option<&Held> {
        self.held(role).last()
    }

    /// Who had a role at an entry; none before it was named.
    pub fn at(&self, role: &Name, entry: u64) -> Option<&str> {
        let held = self.held(role).iter().rev().find(|held| held.stamp.seq <= entry);
        held.map(|held| held.person.as_str())
    }

    /// The name as it stands of somebody who was called this at an entry: a name that was entered wrongly is corrected
    /// wherever it was said.
    pub fn known_as<'run>(&'run self, said: &'run str, entry: u64) -> &'run str {
        let held = self.held.values().flatten().filter(|held| held.stamp.seq <= entry);
        let mut meant = held.filter(|held| held.name_at(entry) == said);
        meant.next().map_or(said, |held| &held.person)
    }

    /// When it was last said who has a role.
    pub fn said(&self, role: &Name) -> Option<&Stamp> {
        self.last(role).map(|held| &held.said)
    }

    /// The turnover of a role that is not accepted yet.
    pub fn incoming(&self, role: &Name) -> Option<&Turnover> {
        let last = self.turnovers.iter().rev().find(|turnover| turnover.role == *role)?;
        Some(last).filter(|turnover| turnover.accepted.is_none())
    }

    /// The first role whose turnover is not accepted yet.
    pub fn not_accepted(&self) -> Option<&Name> {
        self.held.keys().find(|role| self.incoming(role).is_some())
    }

    /// The entry of the last change of people.
    pub fn changed(&self) -> Option<u64> {
        self.turnovers.last().map(|turnover| turnover.stamp.seq)
    }

    /// The entry at which somebody was last named who was not there before.
    pub(in crate::run) fn newest(&self) -> Option<u64> {
        self.held.values().flatten().map(|held| held.stamp.seq).max()
    }

    pub(in crate::run) fn name(&mut self, role: &Name, person: &str, stamp: &Stamp) {
        let held =
            Held { person: person.to_owned(), stamp: stamp.clone(), said: stamp.clone(), before: Vec::new() };
        self.held.entry(role.clone()).or_default().push(held);
    }

    pub(in crate::run) fn keep(&mut self, role: &Name, stamp: &Stamp) {
        if let Some(held) = self.held.get_mut(role).and_then(|held| held.last_mut()) {
            held.said = stamp.clone();
        }
    }

    /// A name was entered wrongly: from the entry at which it was named it is another.
    pub(in crate::run) fn correct(
        &mut self,
        role: &Name,
        entry: u64,
        person: &str,
        reason: &str,
        stamp: &Stamp,
    ) {
        let held = self.held.get_mut(role).into_iter().flatten();
        for held in held.filter(|held| held.stamp.seq == entry) {
            let before = std::mem::replace(&mut held.person, person.to_owned());
            held.before.push((before, reason.to_owned(), stamp.clone()));
        }
    }

    pub(in crate::run) fn accept(&mut self, role: &Name, stamp: &Stamp) {
        let last = self.turnovers.iter_mut().rev().find(|turnover| turnover.role == *role);
        if let Some(turnover) = last {
            turnover.accepted = Some(stamp.clone());
        }
    }
}
