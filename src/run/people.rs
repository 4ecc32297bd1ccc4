//! Who is there, who takes over, who checks whose work.

use super::apply::Next;
use super::event::Event;
use super::prompt::Prompt;
use super::refusal::Refusal;
use super::view::View;

/// What can happen.
#[derive(Clone, Debug, PartialEq)]
pub enum PeopleEvent {}

/// What is asked.
#[derive(Clone, Debug, PartialEq)]
pub enum PeopleAsk {}

/// What is answered.
#[derive(Clone, Debug, PartialEq)]
pub enum PeopleAnswer {}

impl PeopleAsk {
    /// Where the run stands, in a word.
    pub fn label(&self) -> String {
        match *self {}
    }
}

impl PeopleEvent {
    /// The answer that made it.
    pub(crate) fn answer(&self) -> PeopleAnswer {
        match *self {}
    }
}

/// What an answer makes.
pub(super) fn decide(_view: View<'_>, _prompt: &Prompt, answer: PeopleAnswer) -> Result<Event, Refusal> {
    match answer {}
}

impl Next<'_> {
    pub(super) fn people(&mut self, event: &PeopleEvent) {
        match *event {}
    }
}
