//! How a reading is taken: its instrument, when it was really taken, what is typed before a critical act.

use super::apply::Next;
use super::event::Event;
use super::prompt::Prompt;
use super::refusal::Refusal;
use super::view::View;

/// What can happen.
#[derive(Clone, Debug, PartialEq)]
pub enum TakingEvent {}

/// What is asked.
#[derive(Clone, Debug, PartialEq)]
pub enum TakingAsk {}

/// What is answered.
#[derive(Clone, Debug, PartialEq)]
pub enum TakingAnswer {}

impl TakingAsk {
    /// Where the run stands, in a word.
    pub fn label(&self) -> String {
        match *self {}
    }
}

impl TakingEvent {
    /// The answer that made it.
    pub(crate) fn answer(&self) -> TakingAnswer {
        match *self {}
    }
}

/// What an answer makes.
pub(super) fn decide(_view: View<'_>, _prompt: &Prompt, answer: TakingAnswer) -> Result<Event, Refusal> {
    match answer {}
}

impl Next<'_> {
    pub(super) fn taking(&mut self, event: &TakingEvent) {
        match *event {}
    }
}
