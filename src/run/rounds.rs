//! The passes of one repeat, as they are kept.

use std::collections::BTreeMap;

use jiff::ZonedDateTime;

use super::event::Stamp;
use super::rows::Present;
use crate::procedure::{Name, StepId};

/// How a pass ended.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum PassEnd {
    /// It counts.
    Counts,
    /// It does not count, for this reason.
    Invalid(String),
    /// The repeat was given up in it, for this reason.
    GivenUp(String),
}

/// A pass that has ended.
#[derive(Clone, Debug, PartialEq)]
pub struct Pass {
    /// Its item, where the repeat goes through a list.
    pub item: Option<String>,
    /// The entry after which it began.
    pub began: u64,
    /// When it was due, where passes are made every so often.
    pub due: Option<ZonedDateTime>,
    /// The same, whatever was begun anew within it: what was found before stays found.
    pub opened: u64,
    /// When it ended.
    pub ended: Stamp,
    /// How.
    pub end: PassEnd,
    /// Whether it counts now: a later pass may have begun the count anew.
    pub counts: bool,
}

/// Why a repeat makes no further pass.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Over {
    /// All passes are made, or what it goes on for has come.
    Met,
    /// The most passes were made in vain.
    Exhausted,
    /// It was given up.
    GivenUp,
}

/// The passes of one repeat.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Rounds {
    /// Every pass that has ended, also those of earlier rounds.
    pub ended: Vec<Pass>,
    /// Why there is no further pass; worked out after each entry.
    pub over: Option<Over>,
    /// How many of the last passes belong to this round; worked out after each entry.
    pub live: usize,
    /// The entry after which the present pass began; worked out after each entry.
    pub begin: u64,
    /// The same, whatever was begun anew within it.
    pub opened: u64,
    /// The item of the present pass, where the repeat goes through a list; worked out after each entry.
    pub item: Option<String>,
    /// By how many passes more than allowed a person has gone on.
    pub extended: usize,
    /// Whether a person goes on although the passes were in vain.
    pub accepted: bool,
}

impl Rounds {
    /// The passes of this round.
    pub fn live(&self) -> &[Pass] {
        self.ended.get(self.ended.len().saturating_sub(self.live)..).unwrap_or_default()
    }

    /// How many passes of this round count.
    pub fn counted(&self) -> usize {
        self.live().iter().filter(|pass| pass.counts).count()
    }

    /// The number of the present pass, or of the last where there is no further one.
    pub fn number(&self) -> usize {
        self.live().len() + usize::from(self.over.is_none())
    }

    /// Which of the passes that count the present one is, or would be.
    pub fn place(&self) -> usize {
        let is_counted = self.over.is_some() && self.live().last().is_some_and(|pass| pass.counts);
        self.counted() + usize::from(!is_counted)
    }

    pub(super) fn end(&mut self, present: Present, end: PassEnd, ended: Stamp) {
        let counts = end == PassEnd::Counts;
        let Present { item, due } = present;
        let (began, opened) = (self.begin, self.opened);
        self.ended.push(Pass { item, began, due, opened, ended, end, counts });
    }
}

/// From which entry on facts count; everything counts where nothing is said.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Begins {
    pub(super) steps: BTreeMap<StepId, u64>,
    pub(super) names: BTreeMap<Name, u64>,
}

impl Begins {
    /// The entry after which facts about a step count.
    pub fn of_step(&self, step: StepId) -> u64 {
        self.steps.get(&step).copied().unwrap_or_default()
    }

    /// The entry after which an attempt at a reading counts.
    pub fn of_name(&self, name: &Name) -> u64 {
        self.names.get(name).copied().unwrap_or_default()
    }
}
