//! Slips that a person could have made in a run: an entry that is wrong at first and corrected later.

use bayhand::procedure::{Name, ReadingKind};
use bayhand::run::{
    Answer, Event, FasteningEvent, Input, InterruptionAnswer, ParticularAnswer, ParticularEvent,
    PeopleAnswer, PeopleEvent,
};

use super::super::drive::{Drive, reason, typed};
use super::super::invariants::answers::reading_of;

/// An entry that was wrong at first: which one of the run that has it right, what was entered instead, what corrects it.
pub struct Slip {
    pub place: usize,
    pub wrong: Input,
    pub right: Answer,
    /// The name that was entered wrongly, and the right one.
    name: Option<(String, String)>,
}

/// Whether an event corrects such an entry: what was right at first is not right at the end then.
fn corrects(event: &Event, entry: &Event, seq: u64) -> bool {
    match (event, entry) {
        (Event::Corrected { entry, .. } | Event::People(PeopleEvent::NameCorrected { entry, .. }), _) => {
            *entry == seq
        }
        (Event::Particular(event), Event::OdometerRead(_)) => {
            matches!(event, ParticularEvent::OdometerCorrected { .. })
        }
        (Event::Particular(event), Event::VehicleValueGiven { .. }) => {
            matches!(event, ParticularEvent::VehicleValueCorrected { .. })
        }
        _ => false,
    }
}

/// The slips that could have been made at an entry of a run.
pub fn slip(drive: &Drive, place: usize, vary: u8) -> Option<Slip> {
    let seq = drive.events[place].1.seq;
    let Input::Answer(given) = &drive.heard[place].0 else { return None };
    if drive.events.iter().any(|(event, _)| corrects(event, &drive.events[place].0, seq)) {
        return None;
    }
    let slip = |wrong, right, name| Some(Slip { place, wrong: Input::Answer(wrong), right, name });
    match (&drive.events[place].0, given) {
        (Event::Read { reading, .. }, Answer::Typed { text, .. }) => {
            let kind = &drive.book.procedure.reading(reading)?.kind;
            if matches!(kind, ReadingKind::File | ReadingKind::Text) {
                return None;
            }
            let right = Answer::Correct {
                entry: Some(seq),
                reading: reading.clone(),
                text: text.clone(),
                reason: reason(),
            };
            slip(reading_of(drive, reading, vary), right, None)
        }
        (Event::OdometerRead(_), Answer::Typed { text, .. }) => {
            let right = ParticularAnswer::CorrectOdometer { text: text.clone(), reason: reason() };
            slip(typed("3 km"), Answer::Particular(right), None)
        }
        (Event::VehicleValueGiven { name, .. }, Answer::Sourced { text, source }) => {
            let (name, text, source) = (name.clone(), text.clone(), source.clone());
            let right = ParticularAnswer::CorrectVehicleValue { name, text, source, reason: reason() };
            let wrong = Answer::Sourced { text: format!("{vary} N·m"), source: reason() };
            slip(wrong, Answer::Particular(right), None)
        }
        (Event::PersonNamed { role, person }, Answer::Person(_)) => {
            let (role, wrong) = (role.clone(), format!("{person}son"));
            let right = PeopleAnswer::CorrectName { role, person: person.clone(), reason: reason() };
            let name = Some((wrong.clone(), person.clone()));
            slip(Answer::Person(wrong), Answer::People(right), name)
        }
        _ => None,
    }
}

impl Slip {
    /// What was entered wrongly.
    fn of(&self) -> Option<&Name> {
        match &self.right {
            Answer::Correct { reading: name, .. }
            | Answer::Particular(ParticularAnswer::CorrectVehicleValue { name, .. }) => Some(name),
            _ => None,
        }
    }

    /// Whether somebody has decided since about a result that rests on it: to go on with it, or that it is good.
    pub fn is_decided_under(&self, drive: &Drive) -> bool {
        let Some(of) = self.of() else { return false };
        let procedure = &drive.book.procedure;
        let rests = |name: &Name| {
            let declared = format!("{:?} {:?}", procedure.reading(name), procedure.value(name));
            name == of || declared.contains(&format!("\"{of}\""))
        };
        drive.events[self.place + 1..].iter().any(|(event, _)| match event.itself() {
            Event::Accepted { name, .. }
            | Event::People(
                PeopleEvent::Judged { result: name, .. }
                | PeopleEvent::DifferenceAccepted { reading: name, .. },
            ) => rests(name),
            Event::Fastening(event) => matches!(event, FasteningEvent::Accepted { .. }),
            _ => false,
        })
    }

    /// Of the people of a role only the last one's name can be corrected.
    pub fn is_newest_name(&self, drive: &Drive) -> bool {
        let Answer::People(PeopleAnswer::CorrectName { role, .. }) = &self.right else { return true };
        drive.state.people.held(role).len() == 1
    }

    /// What is said while the name is wrong names the wrong one.
    pub fn renamed(&self, input: &Input) -> Input {
        let Some((wrong, right)) = &self.name else { return input.clone() };
        let name = |said: &String| if said == right { wrong.clone() } else { said.clone() };
        let Input::Answer(answer) = input else { return input.clone() };
        Input::Answer(match answer {
            Answer::Release { said } => Answer::Release { said: name(said) },
            Answer::People(PeopleAnswer::Present(present)) => {
                Answer::People(PeopleAnswer::Present(present.iter().map(name).collect()))
            }
            Answer::People(PeopleAnswer::Reinspect { said, reason }) => {
                Answer::People(PeopleAnswer::Reinspect { said: name(said), reason: reason.clone() })
            }
            Answer::Interruption(InterruptionAnswer::Approve { said }) => {
                Answer::Interruption(InterruptionAnswer::Approve { said: name(said) })
            }
            other => other.clone(),
        })
    }
}
