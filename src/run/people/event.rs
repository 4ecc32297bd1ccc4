//! Who is there, who takes over, who looks at whose work.

use crate::procedure::{Name, StepId};
use crate::run::apply::Next;
use crate::run::decide::filled;
use crate::run::event::{Answered, Disposition, Event};
use crate::run::prompt::{Answer, Ask, Prompt, SlipCheck};
use crate::run::refusal::Refusal;
use crate::run::view::View;
use crate::run::{people::attendance as present, people::oversight as looked_over, readings::second};

/// What can happen.
#[expect(missing_docs, reason = "the fields are what their names say")]
#[derive(Clone, Debug, PartialEq)]
pub enum PeopleEvent {
    /// The person of a role is the same as before.
    Kept(Name),
    /// Somebody else takes over a role; the note is the outgoing person's.
    TakenOver { role: Name, person: String, note: Option<String> },
    /// The incoming person has been shown the brief and accepts.
    TurnoverAccepted { role: Name, person: String },
    /// The pre-job brief was held with these people.
    Briefed { present: Vec<String> },
    /// Somebody came to see a step.
    Witnessed { step: StepId, witness: Name, person: String },
    /// Nobody came to see a step.
    NotWitnessed { step: StepId, witness: Name, reason: String },
    /// The work of a role was looked at and signed off.
    SignedOff { step: StepId, role: Name, person: String },
    /// Another person than its performers verified a step.
    Verified { step: StepId, check: Name, person: String },
    /// One of its performers looked at a step again after a break.
    Reinspected { step: StepId, check: Name, person: String, reason: String },
    /// Whoever looked at a step found it otherwise than it should be: it is done anew.
    FoundWrong { step: StepId, check: Option<Name>, person: String, state: String },
    /// A reading was taken a second time, blind to the first.
    SecondRead { reading: Name, value: Answered, person: String },
    /// A name was entered wrongly, at this entry; this is what it is.
    NameCorrected { role: Name, entry: u64, person: String, reason: String },
    /// A person said whether a result is good beside its nominal value; where it is not, what is wrong.
    Judged { result: Name, person: String, wrong: Option<String> },
    /// Two readings that differ are gone on with.
    DifferenceAccepted { reading: Name, disposition: Disposition, reason: String },
}

/// What is asked.
#[derive(Clone, Debug, PartialEq)]
pub enum PeopleAsk {
    /// Another day: has this role still the same person?
    Still(Name),
    /// Whoever takes over this role reads the brief and accepts.
    Turnover(Name),
    /// Hazards, roles, hold points, stop word: who is present?
    PreJobBrief,
    /// Who was called to see this is here, or not.
    Witness(Name),
    /// The person of this role looks at the step and signs it off.
    SignOff(Name),
    /// Another person verifies the step.
    Check(Name),
    /// Another person reads this again, blind.
    Second(Name),
    /// The two readings differ: what now?
    Differs(Name),
    /// Is this result good beside its nominal value?
    Nominal(Name),
}

impl PeopleAsk {
    /// The sort of question, in a word or two.
    pub const fn word(&self) -> &'static str {
        match self {
            Self::Still(_) => "still",
            Self::Turnover(_) => "turnover",
            Self::PreJobBrief => "pre-job brief",
            Self::Witness(_) => "witness",
            Self::SignOff(_) => "sign-off",
            Self::Check(_) => "check",
            Self::Second(_) => "second reading",
            Self::Differs(_) => "differs",
            Self::Nominal(_) => "nominal",
        }
    }

    /// Where the run stands, in a word; `number` is the step's.
    pub fn label(&self, number: &str) -> String {
        match self {
            Self::Still(name)
            | Self::Witness(name)
            | Self::Check(name)
            | Self::Differs(name)
            | Self::Nominal(name) => name.to_string(),
            Self::Turnover(_) | Self::PreJobBrief => self.word().to_owned(),
            Self::SignOff(_) => format!("sign-off {number}"),
            Self::Second(name) => format!("second {name}"),
        }
    }
}

/// What is answered, beside what other questions are answered with too: a name or initials, a reading, how it is.
#[expect(missing_docs, reason = "the fields are what their names say")]
#[derive(Clone, Debug, PartialEq)]
pub enum PeopleAnswer {
    /// The same person as before.
    Keep,
    /// This person.
    Named(String),
    /// This person takes over this role; said at any time.
    TakeOver { role: Name, person: String, note: String },
    /// The name of a role was entered wrongly; said at any time.
    CorrectName { role: Name, person: String, reason: String },
    /// These people are present, by name or initials.
    Present(Vec<String>),
    /// Whoever was called is not here.
    Absent { reason: String },
    /// One of the performers looks again.
    Reinspect { said: String, reason: String },
}

impl PeopleEvent {
    /// The answer that made it.
    pub(crate) fn answer(&self) -> Answer {
        let own = match self.clone() {
            Self::Kept(_) => PeopleAnswer::Keep,
            Self::TakenOver { person, note: None, .. } => PeopleAnswer::Named(person),
            Self::TakenOver { role, person, note: Some(note) } => {
                PeopleAnswer::TakeOver { role, person, note }
            }
            Self::Briefed { present } => PeopleAnswer::Present(present),
            Self::NotWitnessed { reason, .. } => PeopleAnswer::Absent { reason },
            Self::Reinspected { person, reason, .. } => PeopleAnswer::Reinspect { said: person, reason },
            Self::NameCorrected { role, person, reason, .. } => {
                PeopleAnswer::CorrectName { role, person, reason }
            }
            Self::TurnoverAccepted { person, .. }
            | Self::Witnessed { person, .. }
            | Self::SignedOff { person, .. }
            | Self::Verified { person, .. } => return Answer::Release { said: person },
            Self::FoundWrong { state, .. } => return Answer::Untrue { state },
            Self::SecondRead { value, .. } => {
                return Answer::Typed { text: value.as_typed(), slip: SlipCheck::Sure };
            }
            Self::DifferenceAccepted { disposition, reason, .. } => {
                return Answer::Accept { disposition, reason };
            }
            Self::Judged { wrong, .. } => return Answer::judging(wrong),
        };
        Answer::People(own)
    }

    /// What happened, in a few words; `view` is the run after it.
    pub fn words(&self, view: View<'_>) -> String {
        let procedure = &view.book.procedure;
        let what = |name: &Name| procedure.called(name).to_owned();
        let number = |step: &StepId| procedure.step(*step).map_or("", |step| &step.number);
        match self {
            Self::Kept(role) => {
                format!("still {} ({role})", view.state.people.get(role).map_or("", String::as_str))
            }
            Self::TakenOver { role, person, .. } => format!("{person} takes over as {role}"),
            Self::NameCorrected { role, person, .. } => format!("name corrected: {person} ({role})"),
            Self::TurnoverAccepted { role, person } => {
                format!("turnover accepted by {person} ({role}), brief read")
            }
            Self::Briefed { present } => format!("pre-job brief held, present: {}", present.join(", ")),
            Self::Witnessed { step, witness, person } => {
                format!("step {} witnessed by {person}: {}", number(step), what(witness))
            }
            Self::NotWitnessed { step, witness, .. } => {
                format!("step {} not witnessed: {}", number(step), what(witness))
            }
            Self::SignedOff { step, person, .. } => {
                format!("step {} checked and signed off by {person}", number(step))
            }
            Self::Verified { step, check, person } => {
                format!("step {}, independent verification by {person}: {}", number(step), what(check))
            }
            Self::Reinspected { step, check, person, .. } => {
                format!("step {}, re-inspection (one person) by {person}: {}", number(step), what(check))
            }
            Self::FoundWrong { step, person, state, .. } => {
                format!("step {} found otherwise by {person}: {state}; it is done anew", number(step))
            }
            Self::SecondRead { reading, person, .. } => {
                format!("second reading by {person}, blind to the first: {}", what(reading))
            }
            Self::Judged { result, person, wrong } => {
                format!(
                    "{}: {}",
                    what(result),
                    crate::run::readings::opinion::words(person, wrong.as_deref())
                )
            }
            Self::DifferenceAccepted { reading, .. } => format!(
                "two readings that differ are gone on with: {}; deviation {} recorded",
                what(reading),
                view.state.deviations.len()
            ),
        }
    }

    /// Whether somebody looked at work.
    pub(crate) const fn is_look(&self) -> bool {
        matches!(self, Self::SignedOff { .. } | Self::Verified { .. } | Self::Reinspected { .. })
    }

    /// The person's reason, or the outgoing person's note, where there is one.
    pub fn reason(&self) -> Option<&str> {
        match self {
            Self::TakenOver { note, .. } => note.as_deref(),
            Self::NotWitnessed { reason, .. }
            | Self::NameCorrected { reason, .. }
            | Self::Reinspected { reason, .. }
            | Self::DifferenceAccepted { reason, .. } => Some(reason),
            _ => None,
        }
    }
}

/// What an answer of this family makes.
pub(in crate::run) fn decide(
    view: View<'_>,
    prompt: &Prompt,
    answer: PeopleAnswer,
) -> Result<Event, Refusal> {
    let answer = match answer {
        PeopleAnswer::TakeOver { role, person, note } => {
            return present::take_over(view, role, person, note).map(Event::People);
        }
        PeopleAnswer::CorrectName { role, person, reason } => {
            return present::correct_name(view, role, person, reason).map(Event::People);
        }
        other => other,
    };
    let not_asked = || Refusal::NotAsked { asked: Box::new(prompt.ask.clone()) };
    let Ask::People(ask) = &prompt.ask else {
        return Err(not_asked());
    };
    let event = match (ask, prompt.step, answer) {
        (PeopleAsk::Still(role), _, PeopleAnswer::Keep) => PeopleEvent::Kept(role.clone()),
        (PeopleAsk::Still(role), _, PeopleAnswer::Named(person)) => present::named(view, role, person)?,
        (PeopleAsk::PreJobBrief, _, PeopleAnswer::Present(said)) => present::brief(view, &said)?,
        (PeopleAsk::Witness(witness), Some(step), PeopleAnswer::Absent { reason }) => {
            let reason = filled("the reason", reason)?;
            PeopleEvent::NotWitnessed { step, witness: witness.clone(), reason }
        }
        (PeopleAsk::Check(check), Some(step), PeopleAnswer::Reinspect { said, reason }) => {
            looked_over::reinspect(view, step, check, &said, filled("the reason", reason)?)?
        }
        _ => return Err(not_asked()),
    };
    Ok(Event::People(event))
}

/// What an answer that other questions take too makes of a question of this family.
pub(in crate::run) fn decide_common(
    view: View<'_>,
    prompt: &Prompt,
    ask: &PeopleAsk,
    answer: Answer,
) -> Result<Event, Refusal> {
    let event = match (ask, prompt.step, answer) {
        (PeopleAsk::Turnover(role), _, Answer::Release { said }) => present::accept(view, role, &said)?,
        (PeopleAsk::Witness(witness), Some(step), Answer::Release { said }) => {
            looked_over::witness(view, step, witness, &said)?
        }
        (PeopleAsk::SignOff(role), Some(step), Answer::Release { said }) => {
            looked_over::sign_off(view, step, role, &said)?
        }
        (PeopleAsk::Check(check), Some(step), Answer::Release { said }) => {
            looked_over::verify(view, step, check, &said)?
        }
        (PeopleAsk::SignOff(_) | PeopleAsk::Check(_), Some(step), Answer::Untrue { state }) => {
            looked_over::found_wrong(view, step, ask, filled("how it is", state)?)?
        }
        (PeopleAsk::Second(reading), _, Answer::Typed { text, slip }) => {
            second::read(view, reading, &text, slip)?
        }
        (PeopleAsk::Differs(reading), _, Answer::Again { reason }) => {
            let reason = filled("what was done about it", reason)?;
            return Ok(Event::TakenAgain { readings: vec![reading.clone()], reason });
        }
        (PeopleAsk::Differs(reading), step, Answer::Accept { disposition, reason }) => {
            second::accept(view, step, reading, disposition, filled("the reason", reason)?)?
        }
        (PeopleAsk::Nominal(result), Some(step), Answer::Good) => judged(view, step, result, None),
        (PeopleAsk::Nominal(result), Some(step), Answer::NotGood { state }) => {
            judged(view, step, result, Some(filled("what is wrong", state)?))
        }
        (_, _, answer) => return view.decide_at_step(prompt, prompt.ask.clone(), answer),
    };
    Ok(Event::People(event))
}

fn judged(view: View<'_>, step: StepId, result: &Name, wrong: Option<String>) -> PeopleEvent {
    let person = view.book.procedure.step(step).map_or("", |step| view.judges(step)).to_owned();
    PeopleEvent::Judged { result: result.clone(), person, wrong }
}

impl Next<'_> {
    pub(in crate::run) fn people(&mut self, event: &PeopleEvent) {
        match event {
            PeopleEvent::Kept(role) => self.state.people.keep(role, self.stamp),
            PeopleEvent::TakenOver { role, person, note } => self.take_over(role, person, note.clone()),
            PeopleEvent::TurnoverAccepted { role, .. } => self.state.people.accept(role, self.stamp),
            PeopleEvent::NameCorrected { role, entry, person, reason } => {
                self.state.people.correct(role, *entry, person, reason, self.stamp);
            }
            PeopleEvent::Briefed { .. } => self.state.people.briefed = Some(self.stamp.seq),
            PeopleEvent::SecondRead { reading, value, person } => self.read_second(reading, value, person),
            PeopleEvent::DifferenceAccepted { reading, disposition, reason } => {
                self.accept_difference(reading, *disposition, reason);
            }
            PeopleEvent::Judged { .. } => self.take_opinion(event),
            other => self.look_over(other),
        }
    }
}
