//! What was done at a group of fasteners, and what comes next.

use crate::procedure::{Name, Step};
use crate::run::answered::Disposition;
use crate::run::apply::Next;
use crate::run::book::Book;
use crate::run::fastening::event::{Act, FasteningAsk, FasteningEvent, Spot};
use crate::run::fastening::tightening::{Place, Tightening};
use crate::run::particulars::facts::Instrument;
use crate::run::prompt::Ask;
use crate::run::view::View;
use crate::run::work::deviation::Departure;
use crate::run::work::part::Part;
use crate::run::work::tree::OccurrenceId;

impl Book {
    /// The tool of a stage; one that is done by feel needs none.
    fn tool_for(&self, group: &Name, stage: usize) -> Option<&Name> {
        let group = self.procedure.fastener_group(group)?;
        group.stages.get(stage)?.criterion.as_ref()?;
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
        if let FasteningEvent::Corrected { reason, .. } = event {
            self.revise(reason);
        }
        if let FasteningEvent::StageSet { group, stage } = event {
            self.state.tool_set.insert(group.clone(), *stage);
        }
        let act = Act { event: event.clone(), stamp: self.stamp.clone(), deviation };
        self.said().acts.push(act);
    }

    fn left_out_at(&mut self, at: &Spot, reason: &str) -> usize {
        self.depart(Departure::FastenerLeftOut(at.clone()), reason, None)
    }

    fn off_target_at(&mut self, at: &Spot, reason: &str, disposition: Disposition) -> usize {
        self.depart(Departure::FastenerOff(at.clone()), reason, Some(disposition))
    }
}

impl<'run> View<'run> {
    /// What comes next at a group; nothing when each place of each stage is done.
    pub fn next_at(self, group: &Name) -> Option<FasteningAsk> {
        match Tightening::of(self, group)? {
            Ok(tightening) => tightening.next(),
            Err(why) => Some(FasteningAsk::NoPlaces { group: group.clone(), why }),
        }
    }

    /// What is asked at a step's groups of fasteners. A tool that is set for a torque or an angle is used: what has to be
    /// known of it comes first.
    pub(in crate::run) fn ask_tightening(self, step: &Step) -> Option<Ask> {
        step.fasteners.iter().find_map(|group| self.next_at(group)).map(|ask| self.with_tool(ask))
    }

    /// What is asked at a group that a hold point lists: what was done before the hold point was opened does not count.
    pub(in crate::run) fn ask_held_group(self, group: &Name, since: u64) -> Option<Ask> {
        let ask = match Tightening::since(self, group, since)? {
            Ok(tightening) => tightening.next()?,
            Err(why) => FasteningAsk::NoPlaces { group: group.clone(), why },
        };
        Some(self.with_tool(ask))
    }

    fn with_tool(self, ask: FasteningAsk) -> Ask {
        let of_tool = self.tool_of(&ask).and_then(|tool| self.ask_instrument(tool));
        of_tool.unwrap_or(Ask::Fastening(ask))
    }

    /// The entry from which on what is done at a group counts: that which opened its hold point, where it has one.
    pub(super) fn counts_since(self, group: &Name) -> u64 {
        let Some(hold) = self.book.hold_of_fasteners(group) else { return 0 };
        let at = self.book.step_of_fasteners(group).and_then(|step| self.find(Part::Step(step)));
        at.map_or(0, |at| self.verification_at(hold, at).since)
    }

    /// Whether each place of each stage of a group is done, and good.
    pub(in crate::run) fn is_good_group(self, group: &Name) -> bool {
        let tightening = Tightening::of(self, group).and_then(Result::ok);
        tightening.is_some_and(|tightening| tightening.all_places().iter().all(|place| *place == Place::Done))
    }

    /// The tool that what is asked will be done with.
    fn tool_of(self, ask: &FasteningAsk) -> Option<&'run Name> {
        let (group, stage) = match ask {
            FasteningAsk::SetStage { group, stage } => (group, *stage),
            FasteningAsk::Tighten(at) | FasteningAsk::Reach(at) => (&at.group, at.stage),
            FasteningAsk::Failed(_) | FasteningAsk::Nominal(_) | FasteningAsk::NoPlaces { .. } => {
                return None;
            }
        };
        self.book.tool_for(group, stage)
    }

    /// Whether each place of each stage of a group is done, or decided about.
    pub fn is_tightened(self, group: &Name) -> bool {
        self.next_at(group).is_none()
    }

    /// Whether something was done at a group in the present pass.
    pub fn is_tightening_begun(self, group: &Name) -> bool {
        self.acts_now(group).next().is_some()
    }

    /// What was done at a group at its nearest occurrence, and counts.
    pub fn acts_now(self, group: &Name) -> impl Iterator<Item = &'run Act> {
        let step = self.book.step_of_fasteners(group);
        let acts = step.map(|step| self.said(step).acts.as_slice()).unwrap_or_default();
        let (group, since) = (group.clone(), self.counts_since(group));
        acts.iter().filter(move |act| *act.event.group() == group && act.stamp.seq >= since)
    }

    /// Every act by which a value was entered for a place, in whatever pass, with its occurrence.
    pub fn reached_at(self, spot: &Spot) -> Vec<(OccurrenceId, &'run Act)> {
        let acts = self
            .state
            .tree
            .all()
            .flat_map(|(at, occurrence)| occurrence.said.acts.iter().map(move |act| (at, act)));
        let is_meant = |act: &Act| matches!(&act.event, FasteningEvent::Tightened { at, reached: Some(_) } if at == spot);
        acts.filter(|(_, act)| is_meant(act)).collect()
    }

    /// The instrument with which a place was tightened.
    pub fn instrument_of_act(self, act: &Act) -> Option<&'run Instrument> {
        let FasteningEvent::Tightened { at, .. } = &act.event else { return None };
        self.instrument_at(self.book.tool_for(&at.group, at.stage)?, act.stamp.seq)
    }

    /// Whether a group fails: a place of it is not good, gone on with, or left out; none where it is not done yet.
    pub(in crate::run) fn has_failed_group(self, group: &Name) -> Option<bool> {
        let tightening = Tightening::of(self.at_home(group), group)?.ok()?;
        let places = tightening.all_places();
        let is_bad = |place: &Place| matches!(place, Place::Failed | Place::Deviation(_));
        if places.iter().any(is_bad) {
            return Some(true);
        }
        let is_known = |place: &Place| !matches!(place, Place::ToDo | Place::Unjudged);
        places.iter().all(is_known).then_some(false)
    }
}
