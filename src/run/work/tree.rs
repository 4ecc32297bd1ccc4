//! The tree of occurrences: every pass of a repeat, every section or step begun anew, is an occurrence of its own.

use std::collections::BTreeMap;

use crate::procedure::CheckedProcedure;
use crate::run::stamp::Stamp;
use crate::run::work::facts::Said;
use crate::run::work::part::{Address, Part, Turns};

/// An occurrence, by its place in the tree.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct OccurrenceId(usize);

impl OccurrenceId {
    /// The whole run.
    pub const RUN: Self = Self(0);
}

/// How a turn ended.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PassEnd {
    /// It counts.
    Counts,
    /// It does not count, for this reason.
    Invalid(String),
    /// The repeat was given up in it, for this reason.
    GivenUp(String),
    /// It was set aside and begun anew, for this reason.
    SetAside(String),
}

/// That a turn ended, and when.
#[derive(Clone, Debug, PartialEq)]
pub struct Ending {
    /// How.
    pub how: PassEnd,
    /// Its item, where the repeat goes through a list.
    pub item: Option<String>,
    /// When.
    pub stamp: Stamp,
}

/// One occurrence of a part: what was said at it, and the occurrences of what it consists of.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Occurrence {
    /// The part that occurs.
    pub part: Part,
    /// The occurrence that it belongs to; the run belongs to itself.
    pub within: OccurrenceId,
    /// Which turn it is, from 1.
    pub turn: u32,
    /// The first entry in it.
    pub began: Option<Stamp>,
    /// How it ended, where it was a pass or was begun anew.
    pub end: Option<Ending>,
    /// What was said at it.
    pub said: Said,
    parts: BTreeMap<Part, Vec<OccurrenceId>>,
}

/// Everything that occurred, by who belongs to whom.
#[derive(Clone, Debug, PartialEq)]
pub struct Tree {
    nodes: Vec<Occurrence>,
}

impl Default for Tree {
    fn default() -> Self {
        Self { nodes: vec![Occurrence { turn: 1, ..Occurrence::default() }] }
    }
}

impl Tree {
    /// An occurrence.
    pub fn get(&self, id: OccurrenceId) -> &Occurrence {
        self.nodes.get(id.0).unwrap_or(&self.nodes[0])
    }

    pub(crate) fn get_mut(&mut self, id: OccurrenceId) -> &mut Occurrence {
        let place = if id.0 < self.nodes.len() { id.0 } else { 0 };
        &mut self.nodes[place]
    }

    /// Every occurrence in which something was said, in the order in which they came.
    pub fn all(&self) -> impl Iterator<Item = (OccurrenceId, &Occurrence)> {
        self.nodes.iter().enumerate().map(|(place, node)| (OccurrenceId(place), node))
    }

    /// The turns of a part within an occurrence, in order.
    pub fn turns(&self, within: OccurrenceId, part: Part) -> &[OccurrenceId] {
        self.get(within).parts.get(&part).map(Vec::as_slice).unwrap_or_default()
    }

    /// The last turn of a part within an occurrence that was not set aside; else the last.
    pub fn last_standing(&self, within: OccurrenceId, part: Part) -> Option<OccurrenceId> {
        let turns = self.turns(within, part);
        turns.iter().rev().find(|turn| !self.is_set_aside(**turn)).or(turns.last()).copied()
    }

    /// Whether a turn was set aside, by itself.
    pub fn is_set_aside(&self, turn: OccurrenceId) -> bool {
        matches!(&self.get(turn).end, Some(Ending { how: PassEnd::SetAside(_), .. }))
    }

    /// The occurrences around one, itself first, the run last.
    pub fn outwards(&self, from: OccurrenceId) -> impl Iterator<Item = OccurrenceId> {
        let next = |at: &OccurrenceId| (*at != OccurrenceId::RUN).then(|| self.get(*at).within);
        std::iter::successors(Some(from), next)
    }

    /// The occurrence at an address, where something was said at it or within it.
    pub fn find(&self, procedure: &CheckedProcedure, place: &Address) -> Option<OccurrenceId> {
        let chain = place.part.chain(procedure);
        let mut at = OccurrenceId::RUN;
        for (depth, part) in chain.into_iter().enumerate() {
            let turn = usize::try_from(place.turns.at(depth)).ok()?;
            at = *self.turns(at, part).get(turn.checked_sub(1)?)?;
        }
        Some(at)
    }

    /// The address of an occurrence.
    pub fn place(&self, id: OccurrenceId) -> Address {
        let mut turns: Vec<u32> =
            self.outwards(id).filter(|at| *at != OccurrenceId::RUN).map(|at| self.get(at).turn).collect();
        turns.reverse();
        Address { part: self.get(id).part, turns: Turns::of(turns) }
    }

    /// The occurrence at an address; it is made where nothing was said at it yet.
    pub(crate) fn enter(
        &mut self,
        procedure: &CheckedProcedure,
        place: &Address,
        stamp: &Stamp,
    ) -> OccurrenceId {
        self.enter_part(procedure, place.part, &place.turns, stamp).1
    }

    /// The occurrence of a part, with its depth, counted from 0 for the run.
    fn enter_part(
        &mut self,
        procedure: &CheckedProcedure,
        part: Part,
        turns: &Turns,
        stamp: &Stamp,
    ) -> (usize, OccurrenceId) {
        let Some(around) = part.around(procedure) else { return (0, OccurrenceId::RUN) };
        let (depth, above) = self.enter_part(procedure, around, turns, stamp);
        (depth + 1, self.turn(above, part, turns.at(depth), stamp))
    }

    /// A turn of a part: an earlier one by its number, else the next.
    fn turn(&mut self, within: OccurrenceId, part: Part, number: u32, stamp: &Stamp) -> OccurrenceId {
        let turns = self.turns(within, part);
        let known = usize::try_from(number).ok().and_then(|number| turns.get(number.checked_sub(1)?));
        if let Some(known) = known {
            return *known;
        }
        let turn = u32::try_from(turns.len()).unwrap_or(u32::MAX).saturating_add(1);
        let id = OccurrenceId(self.nodes.len());
        let began = Some(stamp.clone());
        self.nodes.push(Occurrence { part, within, turn, began, ..Occurrence::default() });
        self.get_mut(within).parts.entry(part).or_default().push(id);
        id
    }
}
