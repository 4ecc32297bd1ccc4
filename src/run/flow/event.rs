//! The way through the steps: sections called complete, passes ended, ways chosen, sections begun anew.

use crate::procedure::{Name, SectionId, StepId};
use crate::run::apply::Next;
use crate::run::decide::filled;
use crate::run::event::{Disposition, Event};
use crate::run::prompt::{Answer, Ask, Prompt};
use crate::run::refusal::Refusal;
use crate::run::view::View;
use crate::run::work::deviation::Departure;
use crate::run::work::{Ending, Part, PassEnd};

/// What can happen.
#[expect(missing_docs, reason = "the fields are what their names say")]
#[derive(Clone, Debug, PartialEq)]
pub enum FlowEvent {
    /// A section was called complete.
    SectionCompleted(SectionId),
    /// The work of a section is done; what follows confirms it.
    WorkDone(SectionId),
    /// A pass of a repeat is over; with its item, where the repeat goes through a list.
    PassEnded { repeat: Name, end: PassEnd, item: Option<String> },
    /// A repeat is given up, or gone on from although its passes were in vain.
    GivenUp { repeat: Name, disposition: Disposition, reason: String, item: Option<String> },
    /// More passes are made than the procedure allows.
    Extended { repeat: Name, reason: String },
    /// A section is begun anew, its readings kept.
    Restarted { section: SectionId, reason: String },
    /// Of several ways this one is gone.
    Chosen(StepId),
    /// A wait was missed: the procedure's own path for that is taken.
    Missed { step: StepId, wait: Name },
    /// A row of a log is begun before it is due.
    BegunEarly(Name),
    /// What was done is left as it is, although it no longer agrees with what it was done under.
    Settled { step: StepId, disposition: Disposition, reason: String },
}

/// What is asked.
#[expect(missing_docs, reason = "the fields are what their names say")]
#[derive(Clone, Debug, PartialEq)]
pub enum FlowAsk {
    /// Is this section complete?
    SectionComplete(SectionId),
    /// Do the work of this section; then its steps are confirmed.
    Perform(SectionId),
    /// Does this pass count?
    PassEnd(Name),
    /// All passes were in vain: what now?
    Exhausted(Name),
    /// Which way? Exactly one.
    Choose { step: StepId, ways: Vec<StepId> },
    /// This was done under what no longer holds since something was corrected: what now?
    Disagrees(StepId),
}

impl FlowAsk {
    /// The sort of question, in a word.
    pub const fn word(&self) -> &'static str {
        match self {
            Self::SectionComplete(_) => "section complete",
            Self::Perform(_) => "work",
            Self::PassEnd(_) => "pass",
            Self::Exhausted(_) => "exhausted",
            Self::Choose { .. } => "choose",
            Self::Disagrees(_) => "disagrees",
        }
    }

    /// The section that is asked about.
    pub fn section(&self, view: View<'_>) -> Option<SectionId> {
        match self {
            Self::SectionComplete(section) | Self::Perform(section) => Some(*section),
            Self::PassEnd(repeat) | Self::Exhausted(repeat) => match view.book.part_of(repeat)? {
                Part::Run => None,
                Part::Section(section) => Some(section),
                Part::Step(step) => view.book.procedure.step(step).map(|step| step.section),
            },
            Self::Choose { step, .. } | Self::Disagrees(step) => {
                view.book.procedure.step(*step).map(|step| step.section)
            }
        }
    }

    /// Where the run stands, in a word.
    pub fn label(&self, view: View<'_>) -> String {
        match self {
            Self::SectionComplete(section) => format!("section {}", section.0 + 1),
            Self::Perform(section) => format!("work {}", section.0 + 1),
            Self::PassEnd(name) | Self::Exhausted(name) => name.to_string(),
            Self::Choose { step, .. } | Self::Disagrees(step) => {
                view.book.procedure.step(*step).map(|step| step.number.clone()).unwrap_or_default()
            }
        }
    }
}

/// What is answered.
#[expect(missing_docs, reason = "the fields are what their names say")]
#[derive(Clone, Debug, PartialEq)]
pub enum FlowAnswer {
    /// The section is complete.
    Complete,
    /// The work of the section is done.
    WorkDone,
    /// The pass counts.
    Counts,
    /// The pass does not count.
    Invalid { reason: String },
    /// Give the repeat up that the work stands in, or go on although it was in vain.
    GiveUp { disposition: Disposition, reason: String },
    /// Make another pass than are allowed.
    Extend { reason: String },
    /// Begin the section anew.
    Restart { reason: String },
    /// This way.
    Choose(StepId),
    /// Take the procedure's path for a missed wait.
    Missed,
    /// Begin the next row of a log now, although it is not due yet.
    Early,
}

impl FlowEvent {
    /// The answer that made it.
    pub(crate) fn answer(&self) -> Answer {
        Answer::Flow(match self.clone() {
            Self::SectionCompleted(_) => FlowAnswer::Complete,
            Self::WorkDone(_) => FlowAnswer::WorkDone,
            Self::PassEnded { end: PassEnd::Counts, .. } => FlowAnswer::Counts,
            Self::PassEnded {
                end: PassEnd::Invalid(reason) | PassEnd::GivenUp(reason) | PassEnd::SetAside(reason),
                ..
            } => FlowAnswer::Invalid { reason },
            Self::GivenUp { disposition, reason, .. } => FlowAnswer::GiveUp { disposition, reason },
            Self::Extended { reason, .. } => FlowAnswer::Extend { reason },
            Self::Restarted { reason, .. } => FlowAnswer::Restart { reason },
            Self::Chosen(step) => FlowAnswer::Choose(step),
            Self::Missed { .. } => FlowAnswer::Missed,
            Self::BegunEarly(_) => FlowAnswer::Early,
            Self::Settled { disposition, reason, .. } => return Answer::Accept { disposition, reason },
        })
    }
}

impl FlowEvent {
    /// What happened, in a few words; `view` is the run after it.
    pub fn words(&self, view: View<'_>) -> String {
        let procedure = &view.book.procedure;
        let what = |name: &Name| procedure.called(name).to_owned();
        let title = |section: &SectionId| procedure.section(*section).map_or("", |section| &section.title);
        let number = |step: &StepId| procedure.step(*step).map_or("", |step| &step.number);
        let deviation = || format!("deviation {} recorded", view.state.deviations.len());
        match self {
            Self::SectionCompleted(section) => format!("section complete: {}", title(section)),
            Self::WorkDone(section) => format!("work done: {}", title(section)),
            Self::PassEnded { repeat, end, item } => {
                let ended = view.round(repeat).map_or(0, |round| round.ended.len());
                let item = item.as_ref().map(|item| format!(" ({item})")).unwrap_or_default();
                let pass = format!("pass {ended}");
                match end {
                    PassEnd::Counts => format!("{pass} done: {}{item}", what(repeat)),
                    PassEnd::Invalid(_) | PassEnd::GivenUp(_) | PassEnd::SetAside(_) => {
                        format!("{pass} kept, it does not count: {}{item}", what(repeat))
                    }
                }
            }
            Self::GivenUp { repeat, .. } => format!("given up: {}; {}", what(repeat), deviation()),
            Self::Extended { repeat, .. } => format!("one more pass: {}; {}", what(repeat), deviation()),
            Self::Restarted { section, .. } => format!("begun anew: {}", title(section)),
            Self::Chosen(way) => format!("step {} chosen", number(way)),
            Self::Missed { wait, .. } => format!("missed: {}", what(wait)),
            Self::BegunEarly(repeat) => format!("begun before it is due: {}", what(repeat)),
            Self::Settled { step, .. } => {
                format!("step {} left as it was done; {}", number(step), deviation())
            }
        }
    }

    /// The person's reason, where there is one.
    pub fn reason(&self) -> Option<&str> {
        match self {
            Self::PassEnded { end: PassEnd::Invalid(reason) | PassEnd::GivenUp(reason), .. }
            | Self::GivenUp { reason, .. }
            | Self::Extended { reason, .. }
            | Self::Settled { reason, .. }
            | Self::Restarted { reason, .. } => Some(reason),
            _ => None,
        }
    }
}

/// What an answer makes.
pub(in crate::run) fn decide(view: View<'_>, prompt: &Prompt, answer: FlowAnswer) -> Result<Event, Refusal> {
    match answer {
        FlowAnswer::GiveUp { disposition, reason } => give_up(view, prompt, disposition, reason),
        FlowAnswer::Restart { reason } => restart(view, prompt, reason),
        FlowAnswer::Missed => missed(view, prompt),
        FlowAnswer::Early => early(view, prompt),
        other => prompted(view, prompt, other),
    }
    .map(Event::Flow)
}

fn prompted(view: View<'_>, prompt: &Prompt, answer: FlowAnswer) -> Result<FlowEvent, Refusal> {
    let Ask::Flow(ask) = prompt.ask.clone() else {
        return Err(Refusal::NotAsked { asked: Box::new(prompt.ask.clone()) });
    };
    match (ask, answer) {
        (FlowAsk::SectionComplete(section), FlowAnswer::Complete) => Ok(FlowEvent::SectionCompleted(section)),
        (FlowAsk::Perform(section), FlowAnswer::WorkDone) => Ok(FlowEvent::WorkDone(section)),
        (FlowAsk::PassEnd(repeat), FlowAnswer::Counts) => {
            let item = view.present_item(&repeat);
            Ok(FlowEvent::PassEnded { repeat, end: PassEnd::Counts, item })
        }
        (FlowAsk::PassEnd(repeat), FlowAnswer::Invalid { reason }) => {
            let end = PassEnd::Invalid(filled("the reason", reason)?);
            let item = view.present_item(&repeat);
            Ok(FlowEvent::PassEnded { repeat, end, item })
        }
        (FlowAsk::Exhausted(repeat), FlowAnswer::Extend { reason }) => {
            Ok(FlowEvent::Extended { repeat, reason: filled("the reason", reason)? })
        }
        (FlowAsk::Choose { ways, .. }, FlowAnswer::Choose(way)) if ways.contains(&way) => {
            Ok(FlowEvent::Chosen(way))
        }
        (FlowAsk::Choose { .. }, FlowAnswer::Choose(_)) => Err(Refusal::NotOffered),
        (ask, _) => Err(Refusal::NotAsked { asked: Box::new(Ask::Flow(ask)) }),
    }
}

/// The innermost repeat that the question stands in is given up.
fn give_up(
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
fn restart(view: View<'_>, prompt: &Prompt, reason: String) -> Result<FlowEvent, Refusal> {
    let section = match &prompt.ask {
        Ask::Flow(ask) => ask.section(view),
        _ => prompt.step.and_then(|step| view.book.procedure.step(step)).map(|step| step.section),
    };
    let section = section.ok_or(Refusal::NoSection)?;
    Ok(FlowEvent::Restarted { section, reason: filled("the reason", reason)? })
}

/// Only where the procedure has a path for it: steps under a condition that says so.
fn missed(view: View<'_>, prompt: &Prompt) -> Result<FlowEvent, Refusal> {
    match (&prompt.ask, prompt.step) {
        (Ask::Late { wait, .. }, Some(step)) if view.book.has_path_for_missed(wait) => {
            Ok(FlowEvent::Missed { step, wait: wait.clone() })
        }
        (ask, _) => Err(Refusal::NotAsked { asked: Box::new(ask.clone()) }),
    }
}

/// Only where a row of a log is waited for.
fn early(view: View<'_>, prompt: &Prompt) -> Result<FlowEvent, Refusal> {
    match &prompt.ask {
        Ask::Wait { wait, .. } if view.book.procedure.repeat(wait).is_some() => {
            Ok(FlowEvent::BegunEarly(wait.clone()))
        }
        ask => Err(Refusal::NotAsked { asked: Box::new(ask.clone()) }),
    }
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
            FlowEvent::Extended { repeat, reason } => {
                self.depart(Departure::Repeat(repeat.clone()), reason, Some(Disposition::Rework));
                self.extend(repeat);
            }
            FlowEvent::GivenUp { repeat, disposition, reason, item } => {
                self.depart(Departure::Repeat(repeat.clone()), reason, Some(*disposition));
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
