//! How a reading is taken: its instrument, when it was really taken, what is typed before a critical act.

use super::apply::Next;
use super::event::Event;
use super::lateness::{self, LateAnswer, LateEntry};
use super::prompt::Prompt;
use super::refusal::Refusal;
use super::view::View;

/// What can happen.
#[derive(Clone, Debug, PartialEq)]
pub enum TakingEvent {
    /// Something was done before it was entered.
    Late(LateEntry),
}

/// What is asked.
#[derive(Clone, Debug, PartialEq)]
pub enum TakingAsk {}

/// What is answered.
#[derive(Clone, Debug, PartialEq)]
pub enum TakingAnswer {
    /// It was done before.
    Late(LateAnswer),
}

impl TakingAsk {
    /// Where the run stands, in a word.
    pub fn label(&self) -> String {
        match *self {}
    }
}

impl TakingEvent {
    /// The answer that made it.
    pub(crate) fn answer(&self) -> TakingAnswer {
        match self {
            Self::Late(late) => TakingAnswer::Late(late.answer()),
        }
    }

    /// What happened, in a few words.
    pub fn words(&self) -> String {
        match self {
            Self::Late(late) => late.words(),
        }
    }

    /// The person's reason, where there is one.
    pub fn reason(&self) -> Option<&str> {
        match self {
            Self::Late(late) => Some(&late.reason),
        }
    }
}

/// What an answer makes.
pub(super) fn decide(view: View<'_>, prompt: &Prompt, answer: TakingAnswer) -> Result<Event, Refusal> {
    match answer {
        TakingAnswer::Late(late) => lateness::decide(view, prompt, late),
    }
}

impl Next<'_> {
    pub(super) fn taking(&mut self, event: &TakingEvent) {
        match event {
            TakingEvent::Late(late) => self.late_entry(late),
        }
    }
}
