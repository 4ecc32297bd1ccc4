//! Where in the work something belongs that is said: the part that it is about, in its present turn.

use crate::run::event::Event;
use crate::run::fastening::event::FasteningEvent;
use crate::run::flow::event::FlowEvent;
use crate::run::particulars::event::ParticularEvent;
use crate::run::people::event::PeopleEvent;
use crate::run::prompt::Prompt;
use crate::run::sitting::event::InterruptionEvent;
use crate::run::view::View;
use crate::run::work::part::{Address, Part};

impl View<'_> {
    /// The occurrence that an event belongs to; none where it belongs to the run as a whole.
    pub(in crate::run) fn place_for(self, event: &Event, prompt: &Prompt) -> Option<Address> {
        match event.itself() {
            Event::Corrected { reading, entry, .. } => {
                Some(self.state.tree.place(self.state.occurrence_of(reading, *entry)?))
            }
            Event::Fastening(FasteningEvent::Corrected { at, entry, .. }) => {
                let reached = self.reached_at(at).into_iter();
                let mut meant = reached.filter(|(_, act)| act.stamp.seq == *entry);
                Some(self.state.tree.place(meant.next()?.0))
            }
            Event::Flow(FlowEvent::PassTakenBack { .. }) => {
                Some(self.state.tree.place(self.pass_just_ended()?.1))
            }
            event => Some(self.place_of(self.part_for(event, prompt)?)),
        }
    }

    fn part_for(self, event: &Event, prompt: &Prompt) -> Option<Part> {
        let here = prompt.step.map(Part::Step);
        match event {
            Event::Acknowledged { step, .. }
            | Event::LateAccepted { step, .. }
            | Event::Done(step)
            | Event::NotApplicable { step, .. }
            | Event::Particular(ParticularEvent::Typed { step, .. })
            | Event::Deferred { step, .. } => Some(Part::Step(*step)),
            Event::Confirmed { .. }
            | Event::Contradicted { .. }
            | Event::Released { .. }
            | Event::Accepted { .. }
            | Event::TakenAgain { .. } => here,
            Event::Read { reading, .. } => here.or(Some(Part::Step(self.book.procedure.home(reading)?))),
            Event::Flow(event) => self.part_of_flow(event),
            Event::People(event) => match event {
                PeopleEvent::Witnessed { step, .. }
                | PeopleEvent::NotWitnessed { step, .. }
                | PeopleEvent::SignedOff { step, .. }
                | PeopleEvent::Verified { step, .. }
                | PeopleEvent::Reinspected { step, .. }
                | PeopleEvent::FoundWrong { step, .. } => Some(Part::Step(*step)),
                PeopleEvent::SecondRead { .. }
                | PeopleEvent::DifferenceAccepted { .. }
                | PeopleEvent::Judged { .. } => here,
                _ => None,
            },
            Event::Fastening(event) => Some(Part::Step(self.book.step_of_fasteners(event.group())?)),
            Event::Interruption(event) => match event {
                InterruptionEvent::NotSo { step, .. }
                | InterruptionEvent::DeferredToEnd { step, .. }
                | InterruptionEvent::Approved { step, .. } => Some(Part::Step(*step)),
                InterruptionEvent::Declared { step, .. } => step.map(Part::Step),
                _ => None,
            },
            _ => None,
        }
    }

    fn part_of_flow(self, event: &FlowEvent) -> Option<Part> {
        match event {
            FlowEvent::SectionCompleted(section)
            | FlowEvent::WorkDone(section)
            | FlowEvent::Restarted { section, .. } => Some(Part::Section(*section)),
            FlowEvent::PassEnded { repeat, .. }
            | FlowEvent::PassTakenBack { repeat, .. }
            | FlowEvent::BegunEarly(repeat) => self.book.part_of(repeat),
            // A repeat whose passes were in vain is gone on from: that is about what is around it, not about a pass.
            FlowEvent::GivenUp { repeat, .. } => {
                let part = self.book.part_of(repeat)?;
                let is_over = self.round(repeat)?.over.is_some();
                if is_over { part.around(&self.book.procedure) } else { Some(part) }
            }
            FlowEvent::Extended { repeat, .. } => self.book.part_of(repeat)?.around(&self.book.procedure),
            FlowEvent::Chosen(way) => self.book.procedure.step(*way)?.parent.map(Part::Step),
            FlowEvent::Missed { step, .. } | FlowEvent::Settled { step, .. } => Some(Part::Step(*step)),
        }
    }
}
