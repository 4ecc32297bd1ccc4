//! How far a group of fasteners is tightened in its present pass.

use std::collections::BTreeMap;

use crate::procedure::{Fasteners, Name, Stage};
use crate::quantity::Entry;
use crate::run::fastening::event::{Act, FasteningAsk, FasteningEvent, Spot};
use crate::run::fastening::places::order_of;
use crate::run::readings::judge::{Judged, Judgement, judge_entry};
use crate::run::view::View;
use crate::run::work::opinion::Opinion;

/// How a place stands in a stage.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// Done and, where it is read, good.
    Done,
    /// Still to do.
    ToDo,
    /// What was reached is not good, and nothing is decided yet, or the procedure has a path for it.
    Failed,
    /// What was reached cannot be judged yet, or not at all.
    Unjudged,
    /// Left out, or gone on with, by this deviation (from 0).
    Deviation(usize),
}

/// What was done at one place in one stage.
#[derive(Clone, Debug, Default)]
struct Worked {
    /// Every value that was reached and entered, the newest last.
    reached: Vec<Entry>,
    /// Whether it is to be done once more.
    again: bool,
    /// What a person said of the newest value, beside a nominal one.
    opinion: Option<Opinion>,
    /// The deviation by which the newest value is gone on with.
    accepted: Option<usize>,
}

/// A group in its present pass.
pub struct Tightening<'run> {
    view: View<'run>,
    name: &'run Name,
    /// What the procedure says of it.
    pub group: &'run Fasteners,
    /// The places, as listed.
    pub places: Vec<String>,
    order: Vec<usize>,
    /// What was done, place by place and stage by stage.
    worked: BTreeMap<&'run str, BTreeMap<usize, Worked>>,
    /// Places left out: from which stage on, by which deviation.
    left_out: BTreeMap<&'run str, (usize, usize)>,
    /// The stage that the tool is set for.
    set: usize,
}

impl<'run> Tightening<'run> {
    /// How far a group is tightened, or why its places are not known; none where there is no such group.
    pub fn of(view: View<'run>, group: &Name) -> Option<Result<Self, String>> {
        Self::since(view, group, 0)
    }

    /// The same, by what was done with this entry and after it.
    pub(super) fn since(view: View<'run>, group: &Name, since: u64) -> Option<Result<Self, String>> {
        let (name, group) = view.book.procedure.fasteners().iter().find(|(name, _)| *name == group)?;
        let places = match view.places(group) {
            Ok(places) => places,
            Err(why) => return Some(Err(why)),
        };
        let order = order_of(&group.order, &places);
        let (worked, left_out) = (BTreeMap::new(), BTreeMap::new());
        let mut tightening = Self { view, name, group, places, order, worked, left_out, set: 0 };
        view.acts_now(name).filter(|act| act.stamp.seq >= since).for_each(|act| tightening.see(act));
        tightening.set = tightening.set_for();
        Some(Ok(tightening))
    }

    /// The places in the order in which they are done.
    pub fn in_order(&self) -> impl Iterator<Item = &str> {
        self.order.iter().filter_map(|place| self.places.get(*place)).map(String::as_str)
    }

    /// How each place of each stage stands.
    pub fn all_places(&self) -> Vec<Place> {
        let stages = 0..self.group.stages.len();
        let spots = stages.flat_map(|stage| self.places.iter().map(move |place| (stage, place)));
        spots.map(|(stage, place)| self.place(stage, place)).collect()
    }

    /// How a place stands in a stage.
    pub fn place(&self, stage: usize, position: &str) -> Place {
        if let Some((_, deviation)) = self.left_out.get(position).filter(|(from, _)| *from <= stage) {
            return Place::Deviation(*deviation);
        }
        match self.worked_at(stage, position) {
            None => Place::ToDo,
            Some(worked) if worked.again => Place::ToDo,
            Some(worked) => self.stands(stage, worked),
        }
    }

    fn stands(&self, stage: usize, worked: &Worked) -> Place {
        let judged = self.judged_in(stage, worked).map(|(_, judged)| judged);
        match (judged, worked.accepted) {
            (None, _) => Place::Done,
            (Some(judged), _) if judged.judgement.lets_go_on() => Place::Done,
            (Some(_), Some(deviation)) => Place::Deviation(deviation),
            (Some(judged), None) if judged.judgement.is_known() => Place::Failed,
            (Some(_), None) => Place::Unjudged,
        }
    }

    /// What was reached last at a place in a stage, and what is to be thought of it.
    pub fn judged(&self, stage: usize, position: &str) -> Option<(&Entry, Judged)> {
        self.judged_in(stage, self.worked_at(stage, position)?)
    }

    fn judged_in<'w>(&self, stage: usize, worked: &'w Worked) -> Option<(&'w Entry, Judged)> {
        let reached = worked.reached.last()?;
        let stage = self.group.stages.get(stage)?;
        Some((reached, self.view.judge_reached(self.group, stage, reached, worked.opinion.as_ref())?))
    }

    /// Whether a person has still to say if what was reached is good.
    fn awaits_opinion(&self, at: &Spot) -> bool {
        let judged = self.judged(at.stage, &at.position);
        judged.is_some_and(|(_, judged)| matches!(judged.judgement, Judgement::Nominal(_, None)))
    }

    /// Every value that was entered for a place in a stage, the newest last.
    pub fn reached(&self, stage: usize, position: &str) -> &[Entry] {
        let worked = self.worked_at(stage, position);
        worked.map(|worked| worked.reached.as_slice()).unwrap_or_default()
    }

    /// Whether something is to be done or decided at a place. What is not good is decided where the procedure has a path
    /// for it.
    fn is_open(&self, place: Place) -> bool {
        match place {
            Place::ToDo | Place::Unjudged => true,
            Place::Failed => !self.view.book.has_path_for_failed(self.name),
            Place::Done | Place::Deviation(_) => false,
        }
    }

    fn worked_at(&self, stage: usize, position: &str) -> Option<&Worked> {
        self.worked.get(position)?.get(&stage)
    }

    /// What comes next; nothing when each place of each stage is done or decided about.
    pub(super) fn next(&self) -> Option<FasteningAsk> {
        let stages = self.group.stages.iter().enumerate();
        stages.into_iter().find_map(|(stage, declared)| self.next_in(stage, declared))
    }

    fn next_in(&self, stage: usize, declared: &Stage) -> Option<FasteningAsk> {
        let (position, place) = self
            .in_order()
            .map(|position| (position, self.place(stage, position)))
            .find(|(_, place)| self.is_open(*place))?;
        let at = Spot { group: self.name.clone(), stage, position: position.to_owned() };
        Some(match place {
            Place::Unjudged if self.awaits_opinion(&at) => FasteningAsk::Nominal(at),
            Place::Failed | Place::Unjudged => FasteningAsk::Failed(at),
            _ if stage != self.set => FasteningAsk::SetStage { group: self.name.clone(), stage },
            _ if declared.read => FasteningAsk::Reach(at),
            _ => FasteningAsk::Tighten(at),
        })
    }

    /// The tool stays set from one pass to the next, so that the first stage is announced there too.
    fn set_for(&self) -> usize {
        self.view.state.tool_set.get(self.name).copied().unwrap_or_default()
    }

    fn see(&mut self, act: &'run Act) {
        match &act.event {
            FasteningEvent::StageSet { .. } => {}
            FasteningEvent::Tightened { at, reached } => {
                let worked = self.at(at);
                worked.reached.extend(reached.clone());
                (worked.again, worked.accepted, worked.opinion) = (false, None, None);
            }
            FasteningEvent::Judged { at, .. } => self.at(at).opinion = act.opinion(),
            FasteningEvent::Corrected { at, reached, .. } => {
                let worked = self.at(at);
                worked.reached.push(reached.clone());
                (worked.accepted, worked.opinion) = (None, None);
            }
            FasteningEvent::Again { at, .. } => self.at(at).again = true,
            FasteningEvent::Accepted { at, .. } => self.at(at).accepted = act.deviation,
            FasteningEvent::Skipped { at, .. } => {
                self.left_out.insert(&at.position, (at.stage, act.deviation.unwrap_or_default()));
            }
            FasteningEvent::Loosened { position: Some(position), .. } => {
                self.worked.remove(position.as_str());
                self.left_out.remove(position.as_str());
            }
            FasteningEvent::Loosened { position: None, .. } => {
                self.worked.clear();
                self.left_out.clear();
            }
        }
    }

    fn at(&mut self, at: &'run Spot) -> &mut Worked {
        self.worked.entry(&at.position).or_default().entry(at.stage).or_default()
    }
}

impl<'run> View<'run> {
    /// How far a group is tightened, or why its places are not known; none where there is no such group.
    pub fn tightening(self, group: &Name) -> Option<Result<Tightening<'run>, String>> {
        Tightening::of(self, group)
    }

    /// What is to be thought of what was reached in a stage, with what a person said of it.
    pub fn judge_reached(
        self,
        group: &Fasteners,
        stage: &Stage,
        reached: &Entry,
        opinion: Option<&Opinion>,
    ) -> Option<Judged> {
        let tool = group.instrument.as_ref().and_then(|name| self.book.procedure.tool(name));
        let accuracy = tool.and_then(|tool| tool.accuracy.as_ref());
        let criterion = stage.criterion.as_ref().filter(|_| stage.read)?;
        Some(judge_entry(reached, accuracy, criterion, &self.known()).with_opinion(opinion.cloned()))
    }
}
