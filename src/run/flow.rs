//! The way through the steps: sections called complete, passes ended, ways chosen, sections begun anew.

use super::apply::Next;
use super::decide::filled;
use super::event::{Disposition, Event};
use super::prompt::{Ask, Prompt};
use super::refusal::Refusal;
use super::repeats::{Moved, Scope};
use super::rounds::{PassEnd, Rounds};
use super::rows::Present;
use super::state::{Departure, State};
use super::view::View;
use crate::procedure::{Name, SectionId, StepId};

/// What can happen.
#[expect(missing_docs, reason = "the fields are what their names say")]
#[derive(Clone, Debug, PartialEq)]
pub enum FlowEvent {
    /// A section was called complete.
    SectionCompleted(SectionId),
    /// The work of a section is done; what follows confirms it.
    WorkDone(SectionId),
    /// A pass of a repeat is over.
    PassEnded { repeat: Name, end: PassEnd },
    /// A repeat is given up, or gone on from although its passes were in vain.
    GivenUp { repeat: Name, disposition: Disposition, reason: String },
    /// More passes are made than the procedure allows.
    Extended { repeat: Name, reason: String },
    /// A section is begun anew, its readings kept.
    Restarted { section: SectionId, reason: String },
    /// Of several ways this one is gone.
    Chosen(StepId),
    /// A wait was missed: the procedure's own path for that is taken.
    Missed { step: StepId, wait: Name },
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
        }
    }

    /// The section that is asked about.
    pub fn section(&self, view: View<'_>) -> Option<SectionId> {
        match self {
            Self::SectionComplete(section) | Self::Perform(section) => Some(*section),
            Self::PassEnd(repeat) | Self::Exhausted(repeat) => view.book.section_of(view.book.scope(repeat)?),
            Self::Choose { step, .. } => view.book.procedure.step(*step).map(|step| step.section),
        }
    }

    /// Where the run stands, in a word.
    pub fn label(&self, view: View<'_>) -> String {
        match self {
            Self::SectionComplete(section) => format!("section {}", section.0 + 1),
            Self::Perform(section) => format!("work {}", section.0 + 1),
            Self::PassEnd(name) | Self::Exhausted(name) => name.to_string(),
            Self::Choose { step, .. } => {
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
}

impl FlowEvent {
    /// The answer that made it.
    pub(crate) fn answer(&self) -> FlowAnswer {
        match self.clone() {
            Self::SectionCompleted(_) => FlowAnswer::Complete,
            Self::WorkDone(_) => FlowAnswer::WorkDone,
            Self::PassEnded { end: PassEnd::Counts, .. } => FlowAnswer::Counts,
            Self::PassEnded { end: PassEnd::Invalid(reason) | PassEnd::GivenUp(reason), .. } => {
                FlowAnswer::Invalid { reason }
            }
            Self::GivenUp { disposition, reason, .. } => FlowAnswer::GiveUp { disposition, reason },
            Self::Extended { reason, .. } => FlowAnswer::Extend { reason },
            Self::Restarted { reason, .. } => FlowAnswer::Restart { reason },
            Self::Chosen(step) => FlowAnswer::Choose(step),
            Self::Missed { .. } => FlowAnswer::Missed,
        }
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
            Self::PassEnded { repeat, end } => {
                let live = view.rounds(repeat).map(Rounds::live).unwrap_or_default();
                let item = live.last().and_then(|pass| pass.item.as_ref());
                let item = item.map(|item| format!(" ({item})")).unwrap_or_default();
                let pass = format!("pass {}", live.len());
                match end {
                    PassEnd::Counts => format!("{pass} done: {}{item}", what(repeat)),
                    PassEnd::Invalid(_) | PassEnd::GivenUp(_) => {
                        format!("{pass} kept, it does not count: {}{item}", what(repeat))
                    }
                }
            }
            Self::GivenUp { repeat, .. } => format!("given up: {}; {}", what(repeat), deviation()),
            Self::Extended { repeat, .. } => format!("one more pass: {}; {}", what(repeat), deviation()),
            Self::Restarted { section, .. } => format!("begun anew: {}", title(section)),
            Self::Chosen(way) => format!("step {} chosen", number(way)),
            Self::Missed { wait, .. } => format!("missed: {}", what(wait)),
        }
    }

    /// The person's reason, where there is one.
    pub fn reason(&self) -> Option<&str> {
        match self {
            Self::PassEnded { end: PassEnd::Invalid(reason) | PassEnd::GivenUp(reason), .. }
            | Self::GivenUp { reason, .. }
            | Self::Extended { reason, .. }
            | Self::Restarted { reason, .. } => Some(reason),
            _ => None,
        }
    }
}

/// What an answer makes.
pub(super) fn decide(view: View<'_>, prompt: &Prompt, answer: FlowAnswer) -> Result<Event, Refusal> {
    match answer {
        FlowAnswer::GiveUp { disposition, reason } => give_up(view, prompt, disposition, reason),
        FlowAnswer::Restart { reason } => restart(view, prompt, reason),
        FlowAnswer::Missed => missed(view, prompt),
        other => prompted(prompt, other),
    }
    .map(Event::Flow)
}

fn prompted(prompt: &Prompt, answer: FlowAnswer) -> Result<FlowEvent, Refusal> {
    let Ask::Flow(ask) = prompt.ask.clone() else {
        return Err(Refusal::NotAsked { asked: Box::new(prompt.ask.clone()) });
    };
    match (ask, answer) {
        (FlowAsk::SectionComplete(section), FlowAnswer::Complete) => Ok(FlowEvent::SectionCompleted(section)),
        (FlowAsk::Perform(section), FlowAnswer::WorkDone) => Ok(FlowEvent::WorkDone(section)),
        (FlowAsk::PassEnd(repeat), FlowAnswer::Counts) => {
            Ok(FlowEvent::PassEnded { repeat, end: PassEnd::Counts })
        }
        (FlowAsk::PassEnd(repeat), FlowAnswer::Invalid { reason }) => {
            let end = PassEnd::Invalid(filled("the reason", reason)?);
            Ok(FlowEvent::PassEnded { repeat, end })
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
    let around = || view.book.repeats_around(prompt.step?).into_iter().next_back().cloned();
    match asked.or_else(around) {
        Some(repeat) => Ok(FlowEvent::GivenUp { repeat, disposition, reason: filled("the reason", reason)? }),
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

impl Next<'_> {
    pub(super) fn flow(&mut self, event: &FlowEvent) {
        let stamp = self.stamp.clone();
        match event {
            FlowEvent::SectionCompleted(section) => {
                self.state.sections.insert(*section, stamp);
            }
            FlowEvent::WorkDone(section) => {
                self.state.performed.insert(*section, stamp);
            }
            FlowEvent::Chosen(way) => {
                if let Some(parent) = self.book.procedure.step(*way).and_then(|way| way.parent) {
                    self.state.chosen.insert(parent, (*way, stamp.seq));
                }
            }
            FlowEvent::Missed { wait, .. } => {
                self.state.missed.insert(wait.clone(), stamp);
            }
            FlowEvent::PassEnded { repeat, end } => self.end_pass(repeat, end.clone()),
            FlowEvent::Extended { repeat, reason } => {
                self.depart(Departure::Repeat(repeat.clone()), reason, Some(Disposition::Rework));
                self.state.repeats.entry(repeat.clone()).or_default().extended += 1;
                self.book.refresh(&mut self.state);
                self.begin_pass(repeat);
            }
            FlowEvent::GivenUp { repeat, disposition, reason } => {
                self.depart(Departure::Repeat(repeat.clone()), reason, Some(*disposition));
                self.give_up(repeat, reason);
            }
            FlowEvent::Restarted { section, reason } => self.begin_anew(Scope::Section(*section), reason),
        }
    }

    /// Facts from before count no more; they stay where they are.
    pub(super) fn begin_anew(&mut self, scope: Scope, reason: &str) {
        self.state.moved.push(Moved { scope, reason: reason.to_owned(), stamp: self.stamp.clone() });
        self.reopen_holds(scope, reason);
    }

    fn end_pass(&mut self, repeat: &Name, end: PassEnd) {
        let view = self.view();
        let present = Present { item: self.book.item_now(&self.state, repeat), due: view.row_due(repeat) };
        let stamp = self.stamp.clone();
        self.state.repeats.entry(repeat.clone()).or_default().end(present, end, stamp);
        self.book.refresh(&mut self.state);
        self.begin_pass(repeat);
    }

    /// What is verified in each pass is verified anew, where another one comes.
    fn begin_pass(&mut self, repeat: &Name) {
        let goes_on = self.state.repeats.get(repeat).is_some_and(|rounds| rounds.over.is_none());
        if let Some(scope) = self.book.scope(repeat).filter(|_| goes_on) {
            self.reopen_holds(scope, "a new pass");
        }
    }

    fn give_up(&mut self, repeat: &Name, reason: &str) {
        let rounds = self.state.repeats.entry(repeat.clone()).or_default();
        if rounds.over.is_some() {
            rounds.accepted = true;
        } else {
            self.end_pass(repeat, PassEnd::GivenUp(reason.to_owned()));
        }
    }

    fn reopen_holds(&mut self, scope: Scope, why: &str) {
        for step in self.book.procedure.steps() {
            let Some(hold) = step.hold.as_ref().filter(|_| self.book.is_in(scope, step.id)) else {
                continue;
            };
            if let Some(verification) = self.state.holds.get_mut(hold) {
                verification.reopen(why);
            }
        }
    }
}

impl State {
    /// Whether what happened at this entry still counts for a step: not before its present pass began.
    pub fn counts(&self, step: StepId, seq: u64) -> bool {
        seq > self.begins.of_step(step)
    }
}
