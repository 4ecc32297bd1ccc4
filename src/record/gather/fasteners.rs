//! Groups of fasteners: who did which place in which stage, when, and what was reached, pass by pass.

use std::collections::BTreeMap;

use super::readings::used;
use crate::procedure::{self, Fasteners, Name, Stage};
use crate::quantity::Limit;
use crate::record::amounts::{amount, typed};
use crate::record::judging::judged_by;
use crate::record::model::{
    FastenerAct, FastenerGroup, FastenerPass, FastenerPlace, FastenerStage, FastenerTarget, Instrument,
    Loosened,
};
use crate::record::turn::{Turn, performers};
use crate::run::{Book, Event, FasteningEvent, Place, Spot, Tightening};

#[derive(Default)]
pub(in crate::record) struct FastenerGroups(BTreeMap<Name, Vec<Pass>>);

/// A pass, and the entry after which it began.
struct Pass {
    begin: u64,
    pass: FastenerPass,
}

impl FastenerGroups {
    pub(in crate::record) fn see(&mut self, turn: Turn<'_>) {
        let groups = turn.book.procedure.fasteners().iter();
        for (name, group) in groups {
            self.see_group(turn, name, group);
        }
    }

    /// The pass that the event belongs to began before it, so that an event that ends a pass changes nothing in it.
    fn see_group(&mut self, turn: Turn<'_>, name: &Name, group: &Fasteners) {
        let Some(step) = turn.book.step_of_fasteners(name) else {
            return;
        };
        let begin = turn.before.begins.of_step(step);
        let passes = self.0.entry(name.clone()).or_default();
        if let Event::Fastening(event) = turn.event
            && event.group() == name
        {
            if passes.last().is_none_or(|pass| pass.begin != begin) {
                let words = turn.view_before().pass_words(step);
                passes.push(Pass { begin, pass: begun(group, words) });
            }
            if let Some(pass) = passes.last_mut() {
                pass.pass.take(turn, event);
            }
        }
        let same = turn.after.begins.of_step(step) == begin;
        if let Some(pass) = passes.last_mut().filter(|pass| same && pass.begin == begin)
            && let Some(Ok(tightening)) = turn.view().tightening(name)
        {
            pass.pass.refresh(turn, &tightening);
        }
    }

    pub(in crate::record) fn finish(mut self, book: &Book) -> Vec<FastenerGroup> {
        let mut groups: Vec<_> = book.procedure.fasteners().iter().collect();
        groups.sort_by_key(|(name, _)| book.step_of_fasteners(name));
        let mut passes = |name: &Name| self.0.remove(name).unwrap_or_default();
        groups.into_iter().map(|(name, group)| finished(book, (name, group), passes(name))).collect()
    }
}

fn finished(book: &Book, (name, group): (&Name, &Fasteners), passes: Vec<Pass>) -> FastenerGroup {
    let tool = group.instrument.as_ref().and_then(|tool| book.procedure.tool(tool));
    let instrument = |tool: &procedure::Tool| Instrument {
        what: tool.what.clone(),
        accuracy: tool.accuracy.as_ref().map(amount),
    };
    let step = book.step_of_fasteners(name).and_then(|step| book.procedure.step(step));
    FastenerGroup {
        name: name.to_string(),
        what: group.what.clone(),
        step: step.map(|step| step.number.clone()).unwrap_or_default(),
        instrument: tool.map(instrument),
        passes: passes.into_iter().map(|pass| pass.pass).collect(),
    }
}

fn begun(group: &Fasteners, pass: Option<String>) -> FastenerPass {
    let stage = |stage: &Stage| FastenerStage {
        what: stage.what.clone(),
        target: None,
        begun: Vec::new(),
        places: Vec::new(),
    };
    FastenerPass {
        pass,
        order: Vec::new(),
        stages: group.stages.iter().map(stage).collect(),
        loosened: Vec::new(),
    }
}

impl FastenerPass {
    fn take(&mut self, turn: Turn<'_>, event: &FasteningEvent) {
        match event {
            FasteningEvent::StageSet { stage, .. } => {
                if let Some(stage) = self.stages.get_mut(*stage) {
                    stage.begun.push(turn.moment());
                }
            }
            FasteningEvent::Loosened { position, reason, .. } => self.loosened.push(Loosened {
                position: position.clone(),
                reason: reason.clone(),
                when: turn.moment(),
            }),
            _ => {
                if let Some(at) = event.spot() {
                    self.at(at).acts.extend(act(turn, event, at));
                }
            }
        }
    }

    fn at(&mut self, at: &Spot) -> &mut FastenerPlace {
        while self.stages.len() <= at.stage {
            let (what, target) = (String::new(), None);
            self.stages.push(FastenerStage { what, target, begun: Vec::new(), places: Vec::new() });
        }
        let places = &mut self.stages[at.stage].places;
        let place = places.iter().position(|place| place.position == at.position).unwrap_or_else(|| {
            places.push(unworked(&at.position));
            places.len() - 1
        });
        &mut places[place]
    }

    /// How each place stands now, in the order in which they are done, and what each stage tightens to.
    fn refresh(&mut self, turn: Turn<'_>, tightening: &Tightening<'_>) {
        self.order = tightening.in_order().map(str::to_owned).collect();
        for (at, stage) in self.stages.iter_mut().enumerate() {
            let declared = tightening.group.stages.get(at);
            let target = declared.and_then(|declared| target(turn, declared));
            stage.target = target.or_else(|| stage.target.take());
            stage.arrange(&self.order, |position| tightening.place(at, position));
        }
    }
}

impl FastenerStage {
    /// Places that are gone because their number was corrected stay at the end, as far as something was done there.
    fn arrange(&mut self, order: &[String], stands: impl Fn(&str) -> Place) {
        let mut old = std::mem::take(&mut self.places);
        for position in order {
            let found = old.iter().position(|place| place.position == *position);
            let mut place = found.map_or_else(|| unworked(position), |found| old.swap_remove(found));
            place.state = state_words(stands(position));
            self.places.push(place);
        }
        old.retain(|place| !place.acts.is_empty());
        self.places.extend(old);
    }
}

fn unworked(position: &str) -> FastenerPlace {
    FastenerPlace { position: position.to_owned(), state: state_words(Place::ToDo), acts: Vec::new() }
}

fn state_words(place: Place) -> String {
    match place {
        Place::Done => "done".to_owned(),
        Place::ToDo => "not done".to_owned(),
        Place::Failed => "failed".to_owned(),
        Place::Deviation(deviation) => format!("deviation {}", deviation + 1),
    }
}

fn target(turn: Turn<'_>, stage: &Stage) -> Option<FastenerTarget> {
    let aim = turn.view().aim(stage)?.ok()?;
    let limit = |limit: &Option<Limit>| limit.as_ref().map(|limit| amount(&limit.quantity));
    Some(FastenerTarget {
        amount: amount(&aim.target),
        lowest: aim.limits.as_ref().and_then(|limits| limit(&limits.lower)),
        highest: aim.limits.as_ref().and_then(|limits| limit(&limits.upper)),
        trace: aim.trace.show_in(&aim.target.unit),
    })
}

fn act(turn: Turn<'_>, event: &FasteningEvent, at: &Spot) -> Option<FastenerAct> {
    let (what, reached) = match event {
        FasteningEvent::Tightened { reached, .. } => ("done", reached.as_ref()),
        FasteningEvent::Corrected { reached, .. } => ("corrected", Some(reached)),
        FasteningEvent::Again { .. } => ("once more", None),
        FasteningEvent::Accepted { .. } => ("gone on with", None),
        FasteningEvent::Skipped { .. } => ("left out", None),
        FasteningEvent::StageSet { .. } | FasteningEvent::Loosened { .. } => return None,
    };
    let group = turn.book.procedure.fastener_group(&at.group)?;
    let stage = group.stages.get(at.stage)?;
    let judged = reached.and_then(|reached| turn.view().judge_reached(group, stage, reached));
    let step = turn.book.step_of_fasteners(&at.group).and_then(|step| turn.book.procedure.step(step));
    let departed = turn.after.deviations.len() > turn.before.deviations.len();
    Some(FastenerAct {
        what: what.to_owned(),
        reached: reached.map(typed),
        judged: judged.map(|judged| judged_by(stage.criterion().as_ref(), &judged, turn.moment())),
        reason: event.reason().map(str::to_owned),
        deviation: departed.then_some(turn.after.deviations.len()),
        instrument: used(turn),
        who: performers(turn.after, step),
        when: turn.moment(),
    })
}

/// What a fastener departs from that is gone on with: what was reached, and its verdict.
pub(super) fn off_target(turn: Turn<'_>, at: &Spot) -> String {
    let view = turn.view();
    let verdict = view.tightening(&at.group).and_then(Result::ok).and_then(|tightening| {
        let reached = tightening.reached(at.stage, &at.position).last()?;
        let judged = tightening.judge(at.stage, reached)?;
        Some(format!(": {}; {}", reached.typed, judged.judgement))
    });
    format!("{}{}", at.words(view), verdict.unwrap_or_default())
}
