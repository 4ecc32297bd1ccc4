//! What was done at a group of fasteners, and what comes next.

use std::collections::BTreeMap;

use super::event::{FasteningAsk, FasteningEvent, Spot};
use super::tightening::Tightening;
use crate::procedure::{Name, Step};
use crate::run::apply::Next;
use crate::run::state::Departure;
use crate::run::{Ask, Book, Circumstances, Disposition, Stamp, View};

/// Something that was done at a group.
#[derive(Clone, Debug, PartialEq)]
pub struct Act {
    /// What.
    pub event: FasteningEvent,
    /// When.
    pub stamp: Stamp,
    /// The deviation that records it, from 0.
    pub deviation: Option<usize>,
}

/// What is known of a group.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct FastenerFacts {
    /// Everything that was done, also in earlier passes.
    pub acts: Vec<Act>,
    /// What comes next; nothing when each place of each stage is done. Worked out after each entry.
    pub next: Option<FasteningAsk>,
}

impl Book {
    /// The tool of a stage that is set for a torque or an angle; one by feel needs none.
    fn tool_for(&self, group: &Name, stage: usize) -> Option<&Name> {
        let group = self.procedure.fastener_group(group)?;
        group.stages.get(stage)?.target.as_ref()?;
        group.instrument.as_ref()
    }
}

impl Next<'_> {
    pub(in crate::run) fn fastening(&mut self, event: &FasteningEvent) {
        let deviation = match event {
            FasteningEvent::Skipped { at, reason } => Some(self.left_out_at(at, reason)),
            FasteningEvent::Accepted { at, disposition, reason } => {
                Some(self.off_target_at(at, reason, *disposition))
            }
            _ => None,
        };
        if let FasteningEvent::Tightened { at, .. } = event {
            let instrument =
                self.book.tool_for(&at.group, at.stage).and_then(|tool| self.instrument_now(tool));
            let circumstances = Circumstances { instrument, watches: Vec::new() };
            self.state.taking.circumstances.insert(self.stamp.seq, circumstances);
        }
        let act = Act { event: event.clone(), stamp: self.stamp.clone(), deviation };
        self.state.fasteners.entry(event.group().clone()).or_default().acts.push(act);
    }

    fn left_out_at(&mut self, at: &Spot, reason: &str) -> usize {
        self.depart(Departure::FastenerLeftOut(at.clone()), reason, None)
    }

    fn off_target_at(&mut self, at: &Spot, reason: &str, disposition: Disposition) -> usize {
        self.depart(Departure::FastenerOff(at.clone()), reason, Some(disposition))
    }

    /// Works out what comes next at each group.
    pub(in crate::run) fn refresh_fasteners(&mut self) {
        let groups = self.book.procedure.fasteners().names();
        let view = self.view();
        let next: BTreeMap<Name, Option<FasteningAsk>> =
            groups.map(|group| (group.clone(), view.next_at(group))).collect();
        for (group, next) in next {
            self.state.fasteners.entry(group).or_default().next = next;
        }
    }
}

impl<'run> View<'run> {
    fn next_at(self, group: &Name) -> Option<FasteningAsk> {
        match Tightening::of(self, group)? {
            Ok(tightening) => tightening.next(),
            Err(why) => Some(FasteningAsk::NoPlaces { group: group.clone(), why }),
        }
    }

    /// What is asked at a step's groups of fasteners. A tool that is set for a torque or an angle is used: what has to be
    /// known of it comes first.
    pub(in crate::run) fn ask_tightening(self, step: &Step) -> Option<Ask> {
        let ask = step.fasteners.iter().find_map(|group| self.state.fasteners.get(group)?.next.clone())?;
        let of_tool = self.tool_of(&ask).and_then(|tool| self.ask_instrument(tool));
        of_tool.or(Some(Ask::Fastening(ask)))
    }

    /// The tool that what is asked will be done with.
    fn tool_of(self, ask: &FasteningAsk) -> Option<&'run Name> {
        let (group, stage) = match ask {
            FasteningAsk::SetStage { group, stage } => (group, *stage),
            FasteningAsk::Tighten(at) | FasteningAsk::Reach(at) => (&at.group, at.stage),
            FasteningAsk::Failed(_) | FasteningAsk::NoPlaces { .. } => return None,
        };
        self.book.tool_for(group, stage)
    }

    /// Whether each place of each stage of a group is done, or decided about.
    pub fn is_tightened(self, group: &Name) -> bool {
        self.state.fasteners.get(group).is_some_and(|facts| facts.next.is_none())
    }

    /// Whether something was done at a group in the present pass.
    pub fn is_tightening_begun(self, group: &Name) -> bool {
        self.acts_now(group).next().is_some()
    }

    /// What was done at a group in the present pass.
    pub(super) fn acts_now(self, group: &Name) -> impl Iterator<Item = &'run Act> {
        let step = self.book.step_of_fasteners(group);
        let acts = self.state.fasteners.get(group).map(|facts| facts.acts.as_slice()).unwrap_or_default();
        acts.iter().filter(move |act| step.is_some_and(|step| self.state.counts(step, act.stamp.seq)))
    }
}
