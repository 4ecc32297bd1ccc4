//! What is said of the way through the steps.

use crate::procedure::{Name, SectionId, StepId};
use crate::run::flow::event::{FlowAnswer, FlowAsk, FlowEvent};
use crate::run::prompt::Answer;
use crate::run::view::View;
use crate::run::work::part::Part;
use crate::run::work::tree::PassEnd;

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
            }
            | Self::PassTakenBack { reason, .. } => FlowAnswer::Invalid { reason },
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
            Self::PassTakenBack { repeat, .. } => {
                let ended = view.round(repeat).map_or(0, |round| round.ended.len());
                format!("pass {ended} kept, it does not count after all: {}", what(repeat))
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
            | Self::PassTakenBack { reason, .. }
            | Self::GivenUp { reason, .. }
            | Self::Extended { reason, .. }
            | Self::Settled { reason, .. }
            | Self::Restarted { reason, .. } => Some(reason),
            _ => None,
        }
    }
}
