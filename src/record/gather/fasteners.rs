//! Groups of fasteners at each occurrence of their step: who did which place in which stage, when, and what was reached.

use super::readings::used;
use super::work::{Work, moment};
use crate::procedure::{self, Fasteners, Name, Stage};
use crate::quantity::Entry;
use crate::record::amounts::{amount, typed};
use crate::record::judging::{fails, judged_by, limits_by};
use crate::record::model::{
    FastenerAct, FastenerGroup, FastenerPlace, FastenerStage, FastenerTarget, Instrument, Loosened, Outcome,
};
use crate::run::{Act, FasteningEvent, Opinion, Place, Spot, StepAt, Tightening, View};

pub(in crate::record) fn fasteners(work: &Work<'_>, outcome: &mut Outcome) -> Vec<FastenerGroup> {
    let book = work.book();
    let mut groups: Vec<_> = book.procedure.fasteners().iter().collect();
    groups.sort_by_key(|(name, _)| book.step_of_fasteners(name));
    let mut told = Vec::new();
    for (name, group) in groups {
        let seen = book.step_of_fasteners(name).map(|step| work.of(step)).unwrap_or_default();
        for seen in seen {
            told.push(Tightened { work, name, group, seen }.told(outcome));
        }
    }
    told
}

/// A group at one occurrence of its step.
struct Tightened<'work, 'run> {
    work: &'work Work<'run>,
    name: &'work Name,
    group: &'work Fasteners,
    seen: &'work StepAt<'run>,
}

impl<'run> Tightened<'_, 'run> {
    fn told(&self, outcome: &mut Outcome) -> FastenerGroup {
        let tool = self.group.instrument.as_ref().and_then(|tool| self.work.book().procedure.tool(tool));
        let instrument = |tool: &procedure::Tool| Instrument {
            what: tool.what.clone(),
            accuracy: tool.accuracy.as_ref().map(amount),
        };
        let tightening = self.here().tightening(self.name).and_then(Result::ok);
        let acts = self.acts();
        let mut stages: Vec<FastenerStage> = Vec::new();
        if !acts.is_empty() {
            let numbers = 0..self.group.stages.len();
            stages = numbers.map(|stage| self.stage(stage, &acts, tightening.as_ref(), outcome)).collect();
        }
        let order = tightening.iter().flat_map(Tightening::in_order).map(str::to_owned);
        FastenerGroup {
            name: self.name.to_string(),
            what: self.group.what.clone(),
            step: self.seen.step.number.clone(),
            place: self.work.place(self.seen),
            instrument: tool.map(instrument),
            state: tightening.as_ref().map_or("not done", state_of).to_owned(),
            order: if stages.is_empty() { Vec::new() } else { order.collect() },
            stages,
            loosened: acts.iter().filter_map(|act| loosened(act)).collect(),
        }
    }

    fn here(&self) -> View<'run> {
        self.work.inside(self.seen)
    }

    fn acts(&self) -> Vec<&'run Act> {
        let said = self.seen.at.map(|at| self.work.view.state.tree.get(at).said.acts.as_slice());
        said.unwrap_or_default().iter().filter(|act| act.event.group() == self.name).collect()
    }

    fn stage(
        &self,
        number: usize,
        acts: &[&'run Act],
        tightening: Option<&Tightening<'run>>,
        outcome: &mut Outcome,
    ) -> FastenerStage {
        let stage = &self.group.stages[number];
        let begun = acts.iter().filter_map(|act| match &act.event {
            FasteningEvent::StageSet { stage, .. } if *stage == number => Some(moment(&act.stamp)),
            _ => None,
        });
        let mut places: Vec<FastenerPlace> = tightening
            .iter()
            .flat_map(|tightening| {
                tightening.in_order().map(|place| (place, tightening.place(number, place)))
            })
            .map(|(place, stands)| unworked(place, stands))
            .collect();
        for act in acts {
            let Some(at) = act.event.spot().filter(|at| at.stage == number) else { continue };
            let told = self.act(act, at, stage, outcome);
            // Places that are gone because their number was corrected stay at the end.
            let place = places.iter().position(|place| place.position == at.position).unwrap_or_else(|| {
                places.push(unworked(&at.position, Place::ToDo));
                places.len() - 1
            });
            places[place].acts.extend(told);
        }
        FastenerStage { what: stage.what.clone(), target: self.target(stage), begun: begun.collect(), places }
    }

    fn target(&self, stage: &Stage) -> Option<FastenerTarget> {
        let aim = self.here().aim(stage)?.ok()?;
        let (lower, upper) = limits_by(stage.criterion.as_ref(), aim.limits.as_ref());
        let trace = aim.trace.as_ref().filter(|trace| trace.is_worked_out()).zip(aim.target.as_ref());
        Some(FastenerTarget {
            amount: aim.target.as_ref().map(amount),
            trace: trace.map(|(trace, target)| trace.show_in(&target.unit)),
            lower,
            upper,
        })
    }

    fn act(&self, act: &Act, at: &Spot, stage: &Stage, outcome: &mut Outcome) -> Option<FastenerAct> {
        let (what, reached) = match &act.event {
            FasteningEvent::Tightened { reached, .. } => ("done", reached.as_ref()),
            FasteningEvent::Corrected { reached, .. } => ("corrected", Some(reached)),
            FasteningEvent::Again { .. } => ("once more", None),
            FasteningEvent::Accepted { .. } => ("gone on with", None),
            FasteningEvent::Skipped { .. } => ("left out", None),
            // What a person says of a value stands with it, as its verdict.
            FasteningEvent::Judged { .. }
            | FasteningEvent::StageSet { .. }
            | FasteningEvent::Loosened { .. } => return None,
        };
        let opinion = self.opinion_on(act, at);
        let judge = |reached: &Entry| self.here().judge_reached(self.group, stage, reached, opinion.as_ref());
        let judged = reached.and_then(judge);
        let was_wrong = self.was_corrected(act, at);
        let failed = judged.as_ref().is_some_and(|judged| fails(&judged.judgement));
        outcome.fasteners_failed += usize::from(failed && !was_wrong);
        Some(FastenerAct {
            what: what.to_owned(),
            reached: reached.map(typed),
            judged: judged.map(|judged| judged_by(stage.criterion.as_ref(), &judged)),
            reason: act.event.reason().map(str::to_owned),
            deviation: act.deviation.map(|deviation| deviation + 1),
            instrument: self.work.view.instrument_of_act(act).map(used),
            who: self.work.people(Some(self.seen.step), act.stamp.seq),
            when: moment(&act.stamp),
        })
    }

    /// What was last said of a value before another was entered.
    fn opinion_on(&self, act: &Act, at: &Spot) -> Option<Opinion> {
        self.later_at(act, at).map_while(Act::opinion).last()
    }

    /// Whether what was entered with an act was entered wrongly: the next word at its place says so.
    fn was_corrected(&self, act: &Act, at: &Spot) -> bool {
        let next = self.later_at(act, at).find(|later| later.opinion().is_none());
        next.is_some_and(|next| matches!(next.event, FasteningEvent::Corrected { .. }))
    }

    /// What was done at the place of an act after it.
    fn later_at(&self, act: &Act, at: &Spot) -> impl Iterator<Item = &'run Act> {
        let later = self.acts().into_iter().skip_while(|other| other.stamp.seq <= act.stamp.seq);
        later.filter(move |later| later.event.spot() == Some(at))
    }
}

/// What a fastener departs from that is gone on with: what was reached, and its verdict.
pub(super) fn off_target(here: View<'_>, at: &Spot) -> String {
    let verdict = here.tightening(&at.group).and_then(Result::ok).and_then(|tightening| {
        let (reached, judged) = tightening.judged(at.stage, &at.position)?;
        Some(format!(": {}; {}", reached.typed, judged.judgement))
    });
    format!("{}{}", at.words(here), verdict.unwrap_or_default())
}

fn state_of(tightening: &Tightening<'_>) -> &'static str {
    let stands = tightening.all_places();
    let is_deviation = |place: &Place| matches!(place, Place::Deviation(_));
    match () {
        () if stands.contains(&Place::Failed) => "failed",
        () if stands.contains(&Place::ToDo) => "not done",
        () if stands.contains(&Place::Unjudged) => "not judged",
        () if stands.iter().any(is_deviation) => "gone on with",
        () => "done",
    }
}

fn loosened(act: &Act) -> Option<Loosened> {
    let FasteningEvent::Loosened { position, reason, .. } = &act.event else { return None };
    Some(Loosened { position: position.clone(), reason: reason.clone(), when: moment(&act.stamp) })
}

fn unworked(position: &str, stands: Place) -> FastenerPlace {
    FastenerPlace { position: position.to_owned(), state: state_words(stands), acts: Vec::new() }
}

fn state_words(place: Place) -> String {
    match place {
        Place::Done => "done".to_owned(),
        Place::ToDo => "not done".to_owned(),
        Place::Failed => "failed".to_owned(),
        Place::Unjudged => "not judged".to_owned(),
        Place::Deviation(deviation) => format!("deviation {}", deviation + 1),
    }
}
