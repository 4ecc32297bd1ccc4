//! Tightening a group of fasteners, place by place and stage by stage.

use super::apply::Next;
use super::event::Event;
use super::prompt::Prompt;
use super::refusal::Refusal;
use super::view::View;

/// What can happen.
#[derive(Clone, Debug, PartialEq)]
pub enum FasteningEvent {}

/// What is asked.
#[derive(Clone, Debug, PartialEq)]
pub enum FasteningAsk {}

/// What is answered.
#[derive(Clone, Debug, PartialEq)]
pub enum FasteningAnswer {}

impl FasteningAsk {
    /// Where the run stands, in a word.
    pub fn label(&self) -> String {
        match *self {}
    }
}

impl FasteningEvent {
    /// The answer that made it.
    pub(crate) fn answer(&self) -> FasteningAnswer {
        match *self {}
    }
}

/// What an answer makes.
pub(super) fn decide(_view: View<'_>, _prompt: &Prompt, answer: FasteningAnswer) -> Result<Event, Refusal> {
    match answer {}
}

impl Next<'_> {
    pub(super) fn fastening(&mut self, event: &FasteningEvent) {
        match *event {}
    }
}
