//! What must be true before and after the job, and leaving and coming back.

use super::apply::Next;
use super::event::Event;
use super::prompt::Prompt;
use super::refusal::Refusal;
use super::view::View;

/// What can happen.
#[derive(Clone, Debug, PartialEq)]
pub enum InterruptionEvent {}

/// What is asked.
#[derive(Clone, Debug, PartialEq)]
pub enum InterruptionAsk {}

/// What is answered.
#[derive(Clone, Debug, PartialEq)]
pub enum InterruptionAnswer {}

impl InterruptionAsk {
    /// Where the run stands, in a word.
    pub fn label(&self) -> String {
        match *self {}
    }
}

impl InterruptionEvent {
    /// The answer that made it.
    pub(crate) fn answer(&self) -> InterruptionAnswer {
        match *self {}
    }
}

/// What an answer makes.
pub(super) fn decide(
    _view: View<'_>,
    _prompt: &Prompt,
    answer: InterruptionAnswer,
) -> Result<Event, Refusal> {
    match answer {}
}

impl Next<'_> {
    pub(super) fn interruption(&mut self, event: &InterruptionEvent) {
        match *event {}
    }
}
