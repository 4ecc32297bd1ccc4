//! What must be true before and after the job, and leaving and coming back.

use super::apply::Next;
use super::decide::{filled, names};
use super::event::{Disposition, Event};
use super::prompt::{Ask, Prompt};
use super::refusal::Refusal;
use super::repeats::Scope;
use super::state::{Before, Deferral, Departure};
use super::view::View;
use super::{leave_out, statements::Statement};
use crate::procedure::{Name, SectionId, StepId};

/// What a person departs from by a word of his own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Declared {
    /// A tool, a material or a part is another than the procedure names.
    Substitute,
    /// What the procedure says is wrong here.
    Wrong,
    /// Steps were done in another order.
    Order,
    /// Anything else.
    Other,
}

impl Declared {
    /// All of them, in the order in which they are offered.
    pub const ALL: [Self; 4] = [Self::Substitute, Self::Wrong, Self::Order, Self::Other];

    /// As it is said and written.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Substitute => "tool or part substituted",
            Self::Wrong => "procedure wrong",
            Self::Order => "out of sequence",
            Self::Other => "other",
        }
    }

    /// The one of these words.
    pub fn from_words(words: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|declared| declared.words().eq_ignore_ascii_case(words.trim()))
    }
}

/// What can happen.
#[expect(missing_docs, reason = "the fields are what their names say")]
#[derive(Clone, Debug, PartialEq)]
pub enum InterruptionEvent {
    /// The procedure is for this vehicle.
    Covered,
    /// It is not: this is how the vehicle differs.
    NotCovered { state: String },
    /// The procedure is used on a vehicle that it is not for.
    OutOfScope { disposition: Disposition, reason: String },
    /// A statement about the whole job is true.
    Stated(Statement),
    /// It is not true; this is how it is.
    Unmet { statement: Statement, state: String },
    /// How things stand, said later than they were left.
    Found { state: String },
    /// A step that was done before the interruption is still as it was.
    StillSo(StepId),
    /// It is not so any more; this is how it is.
    NotSo { step: StepId, state: String },
    /// A protection stays in force while the run rests, by the hold point that put it in force.
    Kept { hold: Name },
    /// A protection is ended before the run rests.
    MakeSafe { hold: Name },
    /// A step is put off, at the latest until the end of a section.
    DeferredToEnd { step: StepId, section: SectionId, reason: String },
    /// A departure, by a person's word.
    Declared { step: Option<StepId>, declared: Declared, reason: String },
    /// The lead agrees that a step does not apply.
    Approved { step: StepId, by: String },
    /// The lead does not agree.
    NotApproved { step: StepId, reason: String },
}

/// What is asked.
#[derive(Clone, Debug, PartialEq)]
pub enum InterruptionAsk {
    /// Is the procedure for this vehicle?
    Scope,
    /// Is this statement about the whole job true?
    Statement(Statement),
    /// How do things stand?
    Standing,
    /// Is this step still as it was?
    StillSo(StepId),
    /// Does this protection stay in force while the run rests, or is it ended now?
    Protection(Name),
    /// Does this step really not apply?
    Approval(StepId),
}

impl InterruptionAsk {
    /// The sort of question, in a word.
    pub const fn word(&self) -> &'static str {
        match self {
            Self::Scope => "applicability",
            Self::Statement(Statement::Required(_)) => "required",
            Self::Statement(Statement::CloseUp(_)) => "close-up",
            Self::Standing => "state",
            Self::StillSo(_) => "check",
            Self::Protection(_) => "protection",
            Self::Approval(_) => "approval",
        }
    }

    /// Where the run stands, in a word.
    pub fn label(&self, view: View<'_>) -> String {
        let number = |step: &StepId| view.book.procedure.step(*step).map_or("", |step| &step.number);
        match self {
            Self::Scope => "scope".to_owned(),
            Self::Statement(statement) => statement.label(),
            Self::Standing => "state".to_owned(),
            Self::StillSo(step) => format!("check {}", number(step)),
            Self::Protection(hold) => hold.to_string(),
            Self::Approval(step) => format!("approval {}", number(step)),
        }
    }

    /// The step that it is about.
    pub const fn step(&self) -> Option<StepId> {
        match self {
            Self::StillSo(step) | Self::Approval(step) => Some(*step),
            _ => None,
        }
    }
}

/// What is answered.
#[expect(missing_docs, reason = "the fields are what their names say")]
#[derive(Clone, Debug, PartialEq)]
pub enum InterruptionAnswer {
    /// It is so.
    True,
    /// It is not so; this is how it is.
    Untrue { state: String },
    /// Use the procedure on a vehicle that it is not for.
    OutOfScope { disposition: Disposition, reason: String },
    /// This is how things stand.
    Standing { state: String },
    /// The protection stays in force.
    Keep,
    /// The protection is ended now.
    MakeSafe,
    /// This step later, at the latest at the end of a section.
    DeferToEnd { section: SectionId, reason: String },
    /// Declare a departure.
    Declare { declared: Declared, reason: String },
    /// The name or the initials of the lead, who agrees.
    Approve { said: String },
    /// The lead does not agree.
    Refuse { reason: String },
}

impl InterruptionEvent {
    /// The answer that made it.
    pub(crate) fn answer(&self) -> InterruptionAnswer {
        match self.clone() {
            Self::Covered | Self::Stated(_) | Self::StillSo(_) => InterruptionAnswer::True,
            Self::NotCovered { state } | Self::Unmet { state, .. } | Self::NotSo { state, .. } => {
                InterruptionAnswer::Untrue { state }
            }
            Self::OutOfScope { disposition, reason } => {
                InterruptionAnswer::OutOfScope { disposition, reason }
            }
            Self::Found { state } => InterruptionAnswer::Standing { state },
            Self::Kept { .. } => InterruptionAnswer::Keep,
            Self::MakeSafe { .. } => InterruptionAnswer::MakeSafe,
            Self::DeferredToEnd { section, reason, .. } => InterruptionAnswer::DeferToEnd { section, reason },
            Self::Declared { declared, reason, .. } => InterruptionAnswer::Declare { declared, reason },
            Self::Approved { by, .. } => InterruptionAnswer::Approve { said: by },
            Self::NotApproved { reason, .. } => InterruptionAnswer::Refuse { reason },
        }
    }

    /// What happened, in a few words; `view` is the run after it.
    pub fn words(&self, view: View<'_>) -> String {
        let what = |name: &Name| {
            let hold = view.book.procedure.hold(name);
            hold.and_then(|hold| hold.protection.clone()).unwrap_or_else(|| name.to_string())
        };
        let number = |step: &StepId| view.book.procedure.step(*step).map_or("", |step| &step.number);
        let deviation = || format!("deviation {} recorded", view.state.deviations.len());
        match self {
            Self::Covered => "the procedure is for this vehicle".to_owned(),
            Self::NotCovered { state } => format!("the procedure is not for this vehicle: {state}"),
            Self::OutOfScope { .. } => format!("used on a vehicle that it is not for; {}", deviation()),
            Self::Stated(statement) => format!("confirmed: {}", statement.words(view)),
            Self::Unmet { statement, state } => format!("not so: {}; {state}", statement.words(view)),
            Self::Found { state } => format!("state of things: {state}"),
            Self::StillSo(step) => format!("step {} checked: still so", number(step)),
            Self::NotSo { step, state } => format!("step {} is not so any more: {state}", number(step)),
            Self::Kept { hold } => format!("stays in force: {}", what(hold)),
            Self::MakeSafe { hold } => format!("to be ended before the run rests: {}", what(hold)),
            Self::DeferredToEnd { step, section, .. } => {
                format!("step {} comes back at {}", number(step), Before::EndOf(*section).words(view.book))
            }
            Self::Declared { declared, .. } => format!("{}; {}", declared.words(), deviation()),
            Self::Approved { step, by } => {
                format!("step {} not applicable, approved by {by}; {}", number(step), deviation())
            }
            Self::NotApproved { step, .. } => format!("step {} is done after all", number(step)),
        }
    }

    /// The person's reason, where there is one.
    pub fn reason(&self) -> Option<&str> {
        match self {
            Self::OutOfScope { reason, .. }
            | Self::DeferredToEnd { reason, .. }
            | Self::Declared { reason, .. }
            | Self::NotApproved { reason, .. } => Some(reason),
            _ => None,
        }
    }
}

/// What an answer makes.
pub(super) fn decide(view: View<'_>, prompt: &Prompt, answer: InterruptionAnswer) -> Result<Event, Refusal> {
    match answer {
        InterruptionAnswer::Declare { declared, reason } => Ok(InterruptionEvent::Declared {
            step: prompt.step,
            declared,
            reason: filled("the reason", reason)?,
        }),
        InterruptionAnswer::DeferToEnd { section, reason } => {
            let Some(step) = prompt.step else {
                return Err(Refusal::NotAsked { asked: Box::new(prompt.ask.clone()) });
            };
            let reason = filled("the reason", reason)?;
            leave_out::may_defer(view, step, Before::EndOf(section))
                .map(|()| InterruptionEvent::DeferredToEnd { step, section, reason })
        }
        other => prompted(view, prompt, other),
    }
    .map(Event::Interruption)
}

fn prompted(
    view: View<'_>,
    prompt: &Prompt,
    answer: InterruptionAnswer,
) -> Result<InterruptionEvent, Refusal> {
    use InterruptionAnswer as Answer;
    let Ask::Interruption(ask) = prompt.ask.clone() else {
        return Err(Refusal::NotAsked { asked: Box::new(prompt.ask.clone()) });
    };
    match (ask, answer) {
        (InterruptionAsk::Scope, Answer::OutOfScope { disposition, reason }) => {
            Ok(InterruptionEvent::OutOfScope { disposition, reason: filled("the reason", reason)? })
        }
        (ask, Answer::True) => so(ask),
        (ask, Answer::Untrue { state }) => not_so(ask, filled("how it is", state)?),
        (InterruptionAsk::Standing, Answer::Standing { state }) => {
            Ok(InterruptionEvent::Found { state: filled("the state of things", state)? })
        }
        (InterruptionAsk::Protection(hold), Answer::Keep) => Ok(InterruptionEvent::Kept { hold }),
        (InterruptionAsk::Protection(hold), Answer::MakeSafe) => Ok(InterruptionEvent::MakeSafe { hold }),
        (InterruptionAsk::Approval(step), Answer::Approve { said }) => approve(view, step, &said),
        (InterruptionAsk::Approval(step), Answer::Refuse { reason }) => {
            Ok(InterruptionEvent::NotApproved { step, reason: filled("the reason", reason)? })
        }
        (ask, _) => Err(Refusal::NotAsked { asked: Box::new(Ask::Interruption(ask)) }),
    }
}

fn so(ask: InterruptionAsk) -> Result<InterruptionEvent, Refusal> {
    match ask {
        InterruptionAsk::Scope => Ok(InterruptionEvent::Covered),
        InterruptionAsk::Statement(statement) => Ok(InterruptionEvent::Stated(statement)),
        InterruptionAsk::StillSo(step) => Ok(InterruptionEvent::StillSo(step)),
        ask => Err(Refusal::NotAsked { asked: Box::new(Ask::Interruption(ask)) }),
    }
}

fn not_so(ask: InterruptionAsk, state: String) -> Result<InterruptionEvent, Refusal> {
    match ask {
        InterruptionAsk::Scope => Ok(InterruptionEvent::NotCovered { state }),
        InterruptionAsk::Statement(statement) => Ok(InterruptionEvent::Unmet { statement, state }),
        InterruptionAsk::StillSo(step) => Ok(InterruptionEvent::NotSo { step, state }),
        ask => Err(Refusal::NotAsked { asked: Box::new(Ask::Interruption(ask)) }),
    }
}

/// Only the lead says that a step does not apply although no condition says so.
fn approve(view: View<'_>, step: StepId, said: &str) -> Result<InterruptionEvent, Refusal> {
    let person = view.state.people.get(&Name("lead".to_owned())).cloned().unwrap_or_default();
    if names(said, &person) {
        return Ok(InterruptionEvent::Approved { step, by: person });
    }
    Err(Refusal::NotTheLead { said: said.trim().to_owned(), person })
}

impl Next<'_> {
    pub(super) fn interruption(&mut self, event: &InterruptionEvent) {
        let stamp = self.stamp.clone();
        match event {
            InterruptionEvent::Covered => self.state.interruption.covered = Some(stamp),
            InterruptionEvent::NotCovered { state } => {
                self.state.interruption.not_covered = Some(state.clone());
            }
            InterruptionEvent::OutOfScope { disposition, reason } => {
                self.state.interruption.covered = Some(stamp);
                self.depart(Departure::Scope, reason, Some(*disposition));
            }
            InterruptionEvent::Stated(statement) => {
                self.state.interruption.unmet.remove(statement);
                self.state.interruption.stated.insert(*statement, stamp);
            }
            InterruptionEvent::Unmet { statement, state } => {
                self.state.interruption.unmet.insert(*statement, state.clone());
            }
            InterruptionEvent::Declared { step, declared, reason } => {
                self.depart(Departure::Declared(*step, *declared), reason, None);
            }
            InterruptionEvent::DeferredToEnd { step, section, reason } => {
                let deferral = Deferral { before: Before::EndOf(*section), reason: reason.clone(), stamp };
                self.state.deferred.insert(*step, deferral);
            }
            InterruptionEvent::Approved { step, .. } => self.approve(*step),
            InterruptionEvent::NotApproved { .. } => self.state.interruption.to_approve = None,
            InterruptionEvent::StillSo(step) => self.checked(*step),
            InterruptionEvent::NotSo { step, state } => self.not_so_any_more(*step, state),
            InterruptionEvent::Found { state } => {
                self.state.interruption.found = Some((state.clone(), stamp));
            }
            InterruptionEvent::Kept { hold } => {
                self.state.interruption.kept.insert(hold.clone(), stamp.seq);
            }
            InterruptionEvent::MakeSafe { hold } => {
                self.state.interruption.making_safe = Some(hold.clone());
            }
        }
    }

    fn approve(&mut self, step: StepId) {
        if let Some((_, reason)) = self.state.interruption.to_approve.take() {
            self.state.not_applicable.insert(step, (reason.clone(), self.stamp.seq));
            self.depart(Departure::NotApplicable(step), &reason, None);
        }
    }

    fn checked(&mut self, step: StepId) {
        self.state.interruption.recheck.retain(|other| *other != step);
    }

    /// The step is done anew, and the hold points after it, which vouch for it, are verified again.
    fn not_so_any_more(&mut self, step: StepId, state: &str) {
        self.checked(step);
        let number = self.book.procedure.step(step).map_or("", |step| &step.number);
        let why = format!("step {number} is not so any more: {state}");
        self.begin_anew(Scope::Step(step), &why);
        let later = self.book.procedure.steps().iter().filter(|later| later.id > step);
        for hold in later.filter_map(|later| later.hold.as_ref()) {
            if let Some(verification) = self.state.holds.get_mut(hold) {
                verification.reopen(&why);
            }
        }
    }
}
