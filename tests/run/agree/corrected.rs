//! A correction gives what the right entry would have given at once, wherever the way does not differ. Where it differs,
//! the run asks what no longer agrees before it is closed.

use bayhand::procedure::{Name, ReadingKind};
use bayhand::run::{
    Answer, Event, FasteningEvent, Input, InterruptionAnswer, PeopleAnswer, PeopleEvent, TakingAnswer,
    TakingEvent,
};
use proptest::prelude::*;
use proptest::sample::Index;

use super::super::drive::{Drive, reason, typed};
use super::super::invariants::acts::{act, acts, finish};
use super::super::invariants::answers::reading_of;
use super::super::invariants::procedures::{parts, run};
use super::super::invariants::story;
use super::sayings::record_of;
use super::twins::same_but_for_the_correction;
use crate::campaign::cases;

/// An entry that was wrong at first: which one of the run that has it right, what was entered instead, what corrects it.
struct Slip {
    place: usize,
    wrong: Input,
    right: Answer,
    /// The name that was entered wrongly, and the right one.
    name: Option<(String, String)>,
}

/// Whether an event corrects such an entry: what was right at first is not right at the end then.
fn corrects(event: &Event, entry: &Event, seq: u64) -> bool {
    match (event, entry) {
        (Event::Corrected { entry, .. }, _) => *entry == seq,
        (Event::Taking(TakingEvent::OdometerCorrected { .. }), Event::OdometerRead(_)) => true,
        (Event::Taking(TakingEvent::VehicleValueCorrected { .. }), Event::VehicleValueGiven { .. }) => true,
        (Event::People(PeopleEvent::NameCorrected { entry, .. }), _) => *entry == seq,
        _ => false,
    }
}

/// The slips that could have been made at an entry of a run.
fn slip(drive: &Drive, place: usize, vary: u8) -> Option<Slip> {
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
            let right = TakingAnswer::CorrectOdometer { text: text.clone(), reason: reason() };
            slip(typed("3 km"), Answer::Taking(right), None)
        }
        (Event::VehicleValueGiven { name, .. }, Answer::Sourced { text, source }) => {
            let (name, text, source) = (name.clone(), text.clone(), source.clone());
            let right = TakingAnswer::CorrectVehicleValue { name, text, source, reason: reason() };
            let wrong = Answer::Sourced { text: format!("{vary} N·m"), source: reason() };
            slip(wrong, Answer::Taking(right), None)
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

/// Two runs side by side: in one of them something was entered wrongly and is corrected later.
struct Twins {
    right: Drive,
    slipped: Drive,
    /// The entry that corrects it.
    corrected: Option<u64>,
    /// Whether a person decided something under what was wrong: that is asked again.
    is_decided_anew: bool,
}

/// What became of the two.
enum Became {
    /// They are the same to the end.
    Same,
    /// Nothing could be corrected, or not before the run was closed.
    NotCorrected,
    /// After the correction the other run asks something else.
    Parted(Twins),
}

/// The run without anything in it yet.
fn empty(drive: &Drive) -> Drive {
    let (state, now) = (Default::default(), drive.heard[0].1.clone());
    Drive { book: drive.book.clone(), state, events: Vec::new(), heard: Vec::new(), now, by_hand: true }
}

impl Twins {
    fn same_question(&self) -> bool {
        self.right.prompt() == self.slipped.prompt()
    }

    /// Corrects what was entered wrongly, where that can be said now: then the two agree at once.
    fn correct(&mut self, slip: &Slip) -> Result<bool, TestCaseError> {
        if !slip.is_newest_name(&self.slipped) || self.slipped.say(slip.right.clone()).is_err() {
            return Ok(false);
        }
        self.corrected = self.slipped.events.last().map(|(_, stamp)| stamp.seq);
        self.is_decided_anew = slip.is_decided_under(&self.slipped);
        if !self.is_decided_anew {
            prop_assert_eq!(self.right.prompt(), self.slipped.prompt(), "{}", story(&self.slipped));
            self.agree()?;
        }
        Ok(true)
    }

    fn agree(&self) -> Result<(), TestCaseError> {
        let same =
            same_but_for_the_correction(&self.right, &self.slipped, self.corrected.unwrap_or(u64::MAX));
        same.map_err(|what| TestCaseError::fail(format!("{what}\n{}", story(&self.slipped))))
    }
}

/// Goes the way of a run once more, with the slip in it until so many entries are made, or until the way would part.
fn walked(run: &Drive, slip: &Slip, until: usize) -> Result<Became, TestCaseError> {
    let mut twins = Twins { right: empty(run), slipped: empty(run), corrected: None, is_decided_anew: false };
    for (place, (input, now)) in run.heard.iter().enumerate() {
        (twins.right.now, twins.slipped.now) = (now.clone(), now.clone());
        let has_slipped = place > slip.place && twins.corrected.is_none();
        if has_slipped && (place > until || !twins.same_question()) && !twins.correct(slip)? {
            if !twins.same_question() {
                return Ok(Became::NotCorrected);
            }
        }
        if twins.is_decided_anew || !twins.same_question() {
            return Ok(Became::Parted(twins));
        }
        let given = match place {
            place if place == slip.place => slip.wrong.clone(),
            _ if twins.corrected.is_none() => slip.renamed(input),
            _ => input.clone(),
        };
        if twins.slipped.input(given).is_err() {
            if twins.corrected.is_some() || place == slip.place || !twins.correct(slip)? {
                return Ok(Became::NotCorrected);
            }
            if twins.slipped.input(input.clone()).is_err() {
                return Ok(Became::Parted(twins));
            }
        }
        twins.right.input(input.clone()).unwrap();
    }
    if twins.corrected.is_none() {
        return Ok(Became::NotCorrected);
    }
    if twins.is_decided_anew {
        return Ok(Became::Parted(twins));
    }
    twins.agree()?;
    Ok(Became::Same)
}

impl Slip {
    /// What was entered wrongly.
    fn of(&self) -> Option<&Name> {
        match &self.right {
            Answer::Correct { reading: name, .. }
            | Answer::Taking(TakingAnswer::CorrectVehicleValue { name, .. }) => Some(name),
            _ => None,
        }
    }

    /// Whether somebody has decided since about a result that rests on it: to go on with it, or that it is good.
    fn is_decided_under(&self, drive: &Drive) -> bool {
        let Some(of) = self.of() else { return false };
        let procedure = &drive.book.procedure;
        let rests = |name: &Name| {
            let declared = format!("{:?} {:?}", procedure.reading(name), procedure.value(name));
            name == of || declared.contains(&format!("\"{of}\""))
        };
        drive.events[self.place + 1..].iter().any(|(event, _)| match event.itself() {
            Event::Accepted { name, .. } => rests(name),
            Event::People(
                PeopleEvent::Judged { result: name, .. }
                | PeopleEvent::DifferenceAccepted { reading: name, .. },
            ) => rests(name),
            Event::Fastening(event) => matches!(event, FasteningEvent::Accepted { .. }),
            _ => false,
        })
    }

    /// Of the people of a role only the last one's name can be corrected.
    fn is_newest_name(&self, drive: &Drive) -> bool {
        let Answer::People(PeopleAnswer::CorrectName { role, .. }) = &self.right else { return true };
        drive.state.people.held(role).len() == 1
    }

    /// What is said while the name is wrong names the wrong one.
    fn renamed(&self, input: &Input) -> Input {
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

/// What was done under what no longer holds was asked about before the close, and every step came to its end.
fn nothing_is_passed_over(closed: &Drive) -> Result<(), TestCaseError> {
    for step in record_of(closed).steps.iter().filter(|step| step.place.aside.is_none()) {
        let is_ended = ["done", "not applicable", "not finished"].contains(&step.state.as_str());
        prop_assert!(is_ended, "{step:#?}\n{}", story(closed));
        let no_longer_holds = step.why.as_ref().is_some_and(|why| why.starts_with("condition not met"));
        let is_said = step.changes.iter().any(|change| change.to.starts_with("left as it was done"));
        let is_passed_over = step.state == "not finished" && no_longer_holds && !is_said;
        prop_assert!(!is_passed_over, "{step:#?}\n{}", story(closed));
    }
    Ok(())
}

proptest! {
    #![proptest_config(cases(24))]

    #[test]
    fn a_correction_is_as_if_it_had_been_right_at_once(
        parts in parts(),
        acts in acts(),
        (which, until) in (any::<Index>(), any::<Index>()),
        vary in any::<u8>(),
    ) {
        let mut drive = run(&parts);
        acts.iter().try_for_each(|one| act(&mut drive, one))?;
        let drive = finish(drive)?;
        let slips: Vec<Slip> = (0..drive.events.len()).filter_map(|place| slip(&drive, place, vary)).collect();
        let slip = &slips[which.index(slips.len())];
        let until = slip.place + until.index(drive.events.len() - slip.place);
        if let Became::Parted(twins) = walked(&drive, slip, until)? {
            nothing_is_passed_over(&finish(twins.slipped)?)?;
        }
    }
}
