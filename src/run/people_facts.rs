//! What is known of the people of a run: who had which role when, who looked at what.

use std::collections::{BTreeMap, BTreeSet};

use super::event::{Answered, Stamp};
use super::state::State;
use crate::procedure::{Name, StepId};

/// What is known of the people of a run.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PeopleFacts {
    /// Who had a role from which entry on, in order.
    pub held: BTreeMap<Name, Vec<(u64, String)>>,
    /// When the person of a role was last named, or said to be the same.
    pub named: BTreeMap<Name, Stamp>,
    /// Roles whose person is asked for anew, because it is another day.
    pub ask_anew: BTreeSet<Name>,
    /// Turnovers that are not accepted yet.
    pub incoming: BTreeMap<Name, Incoming>,
    /// The entry of the last change of people.
    pub changed: Option<u64>,
    /// The entry of the last pre-job brief.
    pub briefed: Option<u64>,
    /// Since when the work of a step that somebody looks at is done; worked out after each entry.
    pub worked: BTreeMap<StepId, Stamp>,
    /// When a step was signed off by the person of the role that checks.
    pub signed_off: BTreeMap<StepId, Stamp>,
    /// When a step was verified, or looked at again.
    pub checked: BTreeMap<(StepId, Name), Stamp>,
    /// When somebody was called to see a step, whether or not anybody came.
    pub called: BTreeMap<(StepId, Name), Stamp>,
    /// Every second reading, in order.
    pub seconds: BTreeMap<Name, Vec<SecondTaken>>,
    /// Differences between two readings that are gone on with: the second's entry, and the attempts at the first.
    pub differences: BTreeMap<Name, (u64, usize)>,
}

/// Somebody who takes over a role and has not accepted yet.
#[derive(Clone, Debug, PartialEq)]
pub struct Incoming {
    /// Who had the role before.
    pub from: String,
    /// What the outgoing person says, where it is known.
    pub note: Option<String>,
    /// When.
    pub stamp: Stamp,
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

impl State {
    /// Who had a role at an entry; none before it was named.
    pub fn person_at(&self, role: &Name, seq: u64) -> Option<&str> {
        let held = self.people_facts.held.get(role)?;
        held.iter().rev().find(|(since, _)| *since <= seq).map(|(_, person)| person.as_str())
    }

    pub(super) fn name_person(&mut self, role: &Name, person: &str, stamp: &Stamp) {
        self.people.insert(role.clone(), person.to_owned());
        let facts = &mut self.people_facts;
        facts.held.entry(role.clone()).or_default().push((stamp.seq, person.to_owned()));
        facts.named.insert(role.clone(), stamp.clone());
        facts.ask_anew.remove(role);
    }
}
