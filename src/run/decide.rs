//! From an answer to an event, or a refusal. Pure: nothing is changed here.

use jiff::ZonedDateTime;

use crate::procedure::StepId;
use crate::run::answered::Leave;
use crate::run::asked;
use crate::run::book::Book;
use crate::run::event::Event;
use crate::run::fastening::decide as fastening;
use crate::run::fastening::event::FasteningAnswer;
use crate::run::flow::decide as flow;
use crate::run::flow::event::{FlowAnswer, FlowAsk};
use crate::run::loose::decide as loose;
use crate::run::memo::Memo;
use crate::run::particulars::event::ParticularAnswer;
use crate::run::particulars::{instruments, revised};
use crate::run::people::attendance;
use crate::run::people::event::PeopleAnswer;
use crate::run::prompt::{Answer, Ask, Prompt};
use crate::run::readings::{entry, kept_file, lateness};
use crate::run::refusal::Refusal;
use crate::run::sitting::decide as sitting;
use crate::run::sitting::event::InterruptionAnswer;
use crate::run::stamp::Start;
use crate::run::state::{Sitting, State};
use crate::run::step::leave_out;
use crate::run::typed::filled;
use crate::run::view::View;
use crate::run::work::part::Address;

/// What comes into a run from outside.
#[derive(Clone, Debug, PartialEq)]
pub enum Input {
    /// It begins.
    Start(Start),
    /// It is taken up again, by another sitting or after the end of a process.
    Resume,
    /// An answer to the question that it stands at, or something that can be said at any time.
    Answer(Answer),
}

/// What an input makes of a run: the event to record, or why it is refused. Never both, and never a change.
pub fn decide(book: &Book, state: &State, input: Input, now: &ZonedDateTime) -> Result<Decided, Refusal> {
    let memo = Memo::default();
    View::new(book, state, now).remembering(&memo).decide(input)
}

impl View<'_> {
    /// The same of a run that somebody looks at already.
    pub fn decide(self, input: Input) -> Result<Decided, Refusal> {
        let (view, state) = (self, self.state);
        match input {
            Input::Start(start) if state.start.is_none() => {
                Ok(Decided::of_run(Event::Started(Box::new(start))))
            }
            Input::Resume if state.start.is_some() && state.closed.is_none() => {
                Ok(Decided::of_run(Event::Resumed { look_again: self.look_again() }))
            }
            Input::Start(_) | Input::Resume => Err(Refusal::NotWorking),
            Input::Answer(answer) => {
                let prompt = view.next();
                let view = view.inside(prompt.within);
                let event = view.decide_answer(&prompt, answer)?;
                let place = view.place_for(&event, &prompt);
                Ok(Decided { event, place })
            }
        }
    }
}

/// What is recorded of an input: what happened, and at which occurrence.
#[derive(Clone, Debug, PartialEq)]
pub struct Decided {
    /// What happened.
    pub event: Event,
    /// The occurrence that it belongs to; none where it belongs to the run as a whole.
    pub place: Option<Address>,
}

impl Decided {
    fn of_run(event: Event) -> Self {
        Self { event, place: None }
    }
}

impl View<'_> {
    fn decide_answer(self, prompt: &Prompt, answer: Answer) -> Result<Event, Refusal> {
        if self.state.start.is_none() || self.state.closed.is_some() || self.rests_from(prompt, &answer) {
            return Err(Refusal::NotWorking);
        }
        self.only_after_turnover(&answer)?;
        if let (Answer::NotApplicable { .. } | Answer::Defer { .. }, Some(repeat)) =
            (&answer, self.kept_in(prompt))
        {
            return Err(Refusal::NotForeseen { what: self.book.procedure.called(repeat).to_owned() });
        }
        match answer {
            Answer::Note(text) => Ok(Event::Noted(filled("a note", text)?)),
            Answer::Disturbed { what, hold } => self.disturbed(what, hold),
            Answer::Leave { how, reason, state, first } => Ok(Event::Left {
                how,
                reason: filled("the reason", reason)?,
                state: filled("the state that things are left in", state)?,
                first: first.filter(|_| how == Leave::Suspend).and_then(|first| filled("it", first).ok()),
            }),
            Answer::Correct { reading, entry, text, reason } => {
                entry::correct(self, reading, entry, &text, reason)
            }
            Answer::NotApplicable { reason } => {
                leave_out::not_applicable(self, step_of(prompt)?, filled("the reason", reason)?)
            }
            Answer::Defer { before, reason } => {
                leave_out::defer(self, step_of(prompt)?, before, filled("the reason", reason)?)
            }
            Answer::Flow(FlowAnswer::GiveUp { disposition, reason }) => {
                flow::give_up(self, prompt, disposition, reason).map(Event::Flow)
            }
            Answer::Flow(FlowAnswer::Invalid { reason })
                if !matches!(prompt.ask, Ask::Flow(FlowAsk::PassEnd(_))) =>
            {
                flow::take_back(self, reason).map(Event::Flow)
            }
            Answer::Flow(FlowAnswer::Restart { reason }) => {
                flow::restart(self, prompt, reason).map(Event::Flow)
            }
            Answer::People(PeopleAnswer::TakeOver { role, person, note }) => {
                attendance::take_over(self, role, person, note).map(Event::People)
            }
            Answer::People(PeopleAnswer::CorrectName { role, person, reason }) => {
                attendance::correct_name(self, role, person, reason).map(Event::People)
            }
            Answer::Fastening(FasteningAnswer::Loosened { group, position, reason }) => {
                fastening::loosened(self, group, position, reason).map(Event::Fastening)
            }
            Answer::Fastening(FasteningAnswer::Correct { at, entry, text, reason }) => {
                fastening::correct(self, at, entry, &text, reason).map(Event::Fastening)
            }
            Answer::Interruption(InterruptionAnswer::Declare { declared, reason }) => {
                sitting::declare(prompt, declared, reason).map(Event::Interruption)
            }
            Answer::Interruption(InterruptionAnswer::DeferToEnd { section, reason }) => {
                sitting::defer_to_end(self, step_of(prompt)?, section, reason).map(Event::Interruption)
            }
            Answer::Particular(ParticularAnswer::Instrument { tool, identity, due }) => {
                instruments::name(self, tool, identity, &due).map(Event::Particular)
            }
            Answer::Particular(ParticularAnswer::Odometer(text)) if self.state.odometer.is_none() => {
                entry::odometer(self, &text)
            }
            Answer::Particular(ParticularAnswer::CorrectOdometer { text, reason }) => {
                revised::odometer(self, &text, reason).map(Event::Particular)
            }
            Answer::Particular(ParticularAnswer::CorrectVehicleValue { name, text, source, reason }) => {
                revised::vehicle_value(self, name, &text, revised::Why { source, reason })
                    .map(Event::Particular)
            }
            Answer::Particular(ParticularAnswer::CorrectFile { reading, entry, file, reason }) => {
                kept_file::correct(self, reading, entry, file, reason)
            }
            Answer::Loose(answer) => loose::decide(self, answer).map(Event::Loose),
            Answer::Late(late) => lateness::decide(self, prompt, late),
            answer => asked::decide(self, prompt, answer),
        }
    }

    /// A run that rests takes no answer; one that is being left takes only what belongs to leaving it.
    fn rests_from(self, prompt: &Prompt, answer: &Answer) -> bool {
        self.state.sitting == Sitting::Resting
            && (matches!(answer, Answer::Flow(_)) || prompt.ask == Ask::Resting)
    }
}

/// The step that the question stands at. A result that fails is decided about first.
fn step_of(prompt: &Prompt) -> Result<StepId, Refusal> {
    let step = prompt.step.filter(|_| !matches!(prompt.ask, Ask::Failed(_)));
    step.ok_or_else(|| Refusal::NotAsked { asked: Box::new(prompt.ask.clone()) })
}
