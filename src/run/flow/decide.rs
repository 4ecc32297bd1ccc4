//! From an answer to what happens on the way through the steps, and to the state after it.

use crate::procedure::Name;
use crate::run::answered::Disposition;
use crate::run::apply::Next;
use crate::run::flow::event::{FlowAnswer, FlowAsk, FlowEvent};
use crate::run::prompt::{Answer, Ask, Prompt};
use crate::run::refusal::Refusal;
use crate::run::typed::filled;
use crate::run::view::View;
use crate::run::work::deviation::Departure;
use crate::run::work::part::Part;
use crate::run::work::tree::{Ending, PassEnd};

/// What an answer makes of a question of this family.
pub(in crate::run) fn asked(view: View<'_>, ask: &FlowAsk, answer: Answer) -> Result<FlowEvent, Refusal> {
    match (ask.clone(), answer) {
        (FlowAsk::Disagrees(step), Answer::Accept { disposition, reason }) => {
            Ok(FlowEvent::Settled { step, disposition, reason: filled("the reason", reason)? })
        }
        (FlowAsk::SectionComplete(section), Answer::Flow(FlowAnswer::Complete)) => {
            Ok(FlowEvent::SectionCompleted(section))
        }
        (FlowAsk::Perform(section), Answer::Flow(FlowAnswer::WorkDone)) => Ok(FlowEvent::WorkDone(section)),
        (FlowAsk::PassEnd(repeat), Answer::Flow(FlowAnswer::Counts)) => {
            let item = view.present_item(&repeat);
            Ok(FlowEvent::PassEnded { repeat, end: PassEnd::Counts, item })
        }
        (FlowAsk::PassEnd(repeat), Answer::Flow(FlowAnswer::Invalid { reason })) => {
            let end = PassEnd::Invalid(filled("the reason", reason)?);
            let item = view.present_item(&repeat);
            Ok(FlowEvent::PassEnded { repeat, end, item })
        }
        (FlowAsk::Exhausted(repeat), Answer::Flow(FlowAnswer::Extend { reason })) => {
            Ok(FlowEvent::Extended { repeat, reason: filled("the reason", reason)? })
        }
        (FlowAsk::Choose { ways, .. }, Answer::Flow(FlowAnswer::Choose(way))) if ways.contains(&way) => {
            Ok(FlowEvent::Chosen(way))
        }
        (FlowAsk::Choose { .. }, Answer::Flow(FlowAnswer::Choose(_))) => Err(Refusal::NotOffered),
        (ask, _) => Err(Refusal::NotAsked { asked: Box::new(Ask::Flow(ask)) }),
    }
}

/// The pass that ended last does not count.
pub(in crate::run) fn take_back(view: View<'_>, reason: String) -> Result<FlowEvent, Refusal> {
    let (repeat, _) = view.pass_just_ended().ok_or(Refusal::NoPassEnded)?;
    Ok(FlowEvent::PassTakenBack { repeat: repeat.clone(), reason: filled("the reason", reason)? })
}

/// The innermost repeat that the question stands in is given up.
pub(in crate::run) fn give_up(
    view: View<'_>,
    prompt: &Prompt,
    disposition: Disposition,
    reason: String,
) -> Result<FlowEvent, Refusal> {
    let asked = match &prompt.ask {
        Ask::Flow(FlowAsk::PassEnd(repeat) | FlowAsk::Exhausted(repeat)) => Some(repeat.clone()),
        _ => None,
    };
    let around = || view.book.repeats_over(Part::Step(prompt.step?)).into_iter().next_back().cloned();
    match asked.or_else(around) {
        Some(repeat) if !view.can_be_given_up(&repeat) => {
            Err(Refusal::NotForeseen { what: view.book.procedure.called(&repeat).to_owned() })
        }
        Some(repeat) => {
            let item = view.present_item(&repeat);
            Ok(FlowEvent::GivenUp { repeat, disposition, reason: filled("the reason", reason)?, item })
        }
        None => Err(Refusal::NoRepeat),
    }
}

/// The section that the question stands in is begun anew.
pub(in crate::run) fn restart(view: View<'_>, prompt: &Prompt, reason: String) -> Result<FlowEvent, Refusal> {
    let section = match &prompt.ask {
        Ask::Flow(ask) => ask.section(view),
        _ => prompt.step.and_then(|step| view.book.procedure.step(step)).map(|step| step.section),
    };
    let section = section.ok_or(Refusal::NoSection)?;
    Ok(FlowEvent::Restarted { section, reason: filled("the reason", reason)? })
}

impl View<'_> {
    /// The item of the present pass, where the repeat goes through a list.
    pub(crate) fn present_item(self, repeat: &Name) -> Option<String> {
        self.round(repeat)?.item.clone()
    }
}

impl Next<'_> {
    pub(in crate::run) fn flow(&mut self, event: &FlowEvent) {
        let stamp = self.stamp.clone();
        match event {
            FlowEvent::SectionCompleted(_) => self.said().complete = Some(stamp),
            FlowEvent::WorkDone(_) => self.said().performed = Some(stamp),
            FlowEvent::Chosen(way) => self.said().way = Some((*way, stamp.seq)),
            FlowEvent::Missed { wait, .. } => self.said().missed.push((wait.clone(), stamp)),
            FlowEvent::BegunEarly(_) => self.said().early = true,
            FlowEvent::PassEnded { end, item, .. } => self.end(end.clone(), item.clone()),
            FlowEvent::PassTakenBack { reason, .. } => {
                let item = self.occurrence().end.as_ref().and_then(|end| end.item.clone());
                self.end(PassEnd::Invalid(reason.clone()), item);
            }
            FlowEvent::Extended { repeat, reason } => {
                self.depart(Departure::OneMore(repeat.clone()), reason, Some(Disposition::Rework));
                self.extend(repeat);
            }
            FlowEvent::GivenUp { repeat, disposition, reason, item } => {
                self.depart(Departure::GivenUp(repeat.clone()), reason, Some(*disposition));
                // What belongs to the pass ends it; what belongs to what is around it is about all passes.
                if self.book.part_of(repeat) == Some(self.occurrence().part) {
                    self.end(PassEnd::GivenUp(reason.clone()), item.clone());
                } else {
                    self.said().gone_on.push(repeat.clone());
                }
            }
            FlowEvent::Restarted { reason, .. } => self.end(PassEnd::SetAside(reason.clone()), None),
            FlowEvent::Settled { step, disposition, reason } => {
                self.depart(Departure::Disagrees(*step), reason, Some(*disposition));
                self.said().settled = Some(stamp.seq);
            }
        }
    }

    fn extend(&mut self, repeat: &Name) {
        let extended = &mut self.said().extended;
        match extended.iter_mut().find(|(of, _)| of == repeat) {
            Some((_, more)) => *more += 1,
            None => extended.push((repeat.clone(), 1)),
        }
    }

    /// The turn of the occurrence ends. Where one that had ended is set aside, what is known of the passes that have
    /// ended is worked out anew.
    pub(in crate::run) fn end(&mut self, how: PassEnd, item: Option<String>) {
        let stamp = self.stamp.clone();
        let had_ended = self.occurrence().end.replace(Ending { how, item, stamp }).is_some();
        if had_ended {
            self.state.derived.forget(|_| true);
        }
    }
}
