//! What a person does, one thing after the other: mostly answers what is asked, sometimes something else.

use bayhand::run::{
    Answer, Ask, Disposition, FlowAnswer, FlowAsk, Input, LateAnswer, Leave, Memo, Refusal, View, replay,
};
use proptest::prelude::*;

use super::super::commands::commands;
use super::super::drive::{Drive, leave, reason};
use super::answers::{accept, fitting};
use super::told::Told;

/// One thing that a person does.
#[derive(Clone, Debug)]
pub enum Act {
    /// The answer that fits, or what else goes on: the run is taken up again, a wait is over.
    Answer(u8),
    /// The same, for something that was done so many minutes ago.
    Late(u8, u16),
    /// One of the commands that are taken here.
    Command(u16),
    /// Any command: mostly one that does not fit.
    Wrong(u16),
    /// An earlier reading was entered wrongly.
    Correct(u8, u8),
    /// The pass that ended last does not count after all.
    TakeBack,
    /// The sitting ends, planned or not.
    Leave(bool),
    /// The process ended without a word.
    Resume,
    /// So many minutes go by.
    Pass(u16),
    /// The clock is set back.
    Back(u8),
}

impl Act {
    /// An act out of two bytes: mostly an answer that fits.
    pub fn of(what: u8, how: u8) -> Self {
        match what {
            0..24 => Self::Command(u16::from(how) * 24 + u16::from(what)),
            24..40 => Self::Wrong(u16::from(how) * 16 + u16::from(what)),
            40..52 => Self::Correct(what, how),
            52..64 => Self::TakeBack,
            64..70 => Self::Leave(how.is_multiple_of(2)),
            70..76 => Self::Resume,
            76..92 => Self::Pass(u16::from(how) * (u16::from(what) - 75)),
            92..98 => Self::Back(how),
            98..110 => Self::Late(how, u16::from(what) * 7 % 90),
            _ => Self::Answer(how),
        }
    }
}

/// What a person does in a run.
pub fn acts() -> impl Strategy<Value = Vec<Act>> {
    let act = prop_oneof![
        40 => any::<u8>().prop_map(Act::Answer),
        3 => (any::<u8>(), 0_u16..90).prop_map(|(vary, ago)| Act::Late(vary, ago)),
        4 => any::<u16>().prop_map(Act::Command),
        2 => any::<u16>().prop_map(Act::Wrong),
        2 => (any::<u8>(), any::<u8>()).prop_map(|(which, value)| Act::Correct(which, value)),
        2 => Just(Act::TakeBack),
        1 => any::<bool>().prop_map(Act::Leave),
        1 => Just(Act::Resume),
        3 => (0_u16..20).prop_map(Act::Pass),
        1 => (0_u16..600).prop_map(Act::Pass),
        1 => any::<u8>().prop_map(Act::Back),
    ];
    prop::collection::vec(act, 0..160)
}

/// Does one act and checks what must hold whatever it was.
pub fn act(drive: &mut Drive, act: &Act) -> Result<(), TestCaseError> {
    match input(drive, act) {
        Some(input) => checked(drive, &input).map(|_| ()),
        None => Ok(()),
    }
}

/// What an act gives to the run; nothing where only time goes by.
fn input(drive: &mut Drive, act: &Act) -> Option<Input> {
    let answer = match act {
        Act::Answer(vary) => return next(drive, *vary),
        Act::Late(vary, ago) => late(drive, *vary, *ago),
        Act::Command(which) => {
            let mut all = commands(drive);
            let first = usize::from(*which) % all.len();
            all.rotate_left(first);
            all.into_iter().find(|command| drive.takes(command))?
        }
        Act::Wrong(which) => {
            let all = commands(drive);
            all[usize::from(*which) % all.len()].clone()
        }
        Act::Correct(which, value) => correction(drive, *which, *value)?,
        Act::TakeBack => Answer::Flow(FlowAnswer::Invalid { reason: reason() }),
        Act::Leave(stop) => leave(if *stop { Leave::Stop } else { Leave::Suspend }),
        Act::Resume => return Some(Input::Resume),
        Act::Pass(minutes) => {
            drive.pass(i64::from(*minutes));
            return None;
        }
        Act::Back(minutes) => {
            drive.pass(-i64::from(*minutes));
            return None;
        }
    };
    Some(Input::Answer(answer))
}

/// What goes on by itself: who rests comes back, who waits waits; everything else is answered.
fn next(drive: &mut Drive, vary: u8) -> Option<Input> {
    match drive.ask() {
        Ask::Resting => Some(Input::Resume),
        Ask::Wait { until, .. } if !vary.is_multiple_of(4) => {
            drive.now = until;
            None
        }
        _ => Some(Input::Answer(fitting(drive, vary))),
    }
}

fn late(drive: &Drive, vary: u8, ago: u16) -> Answer {
    let done = drive.now.checked_sub(jiff::SignedDuration::from_mins(i64::from(ago))).unwrap();
    let done = done.strftime("%Y-%m-%dT%H:%M:%S%:z").to_string();
    LateAnswer { answer: Box::new(fitting(drive, vary)), done, reason: reason() }.into()
}

/// Another value for something that was read, in the unit that it is asked in.
fn correction(drive: &Drive, which: u8, value: u8) -> Option<Answer> {
    let taken: Vec<_> = drive.state.read_at.keys().collect();
    let reading = (*taken.get(usize::from(which) % taken.len().max(1))?).clone();
    let text = if value.is_multiple_of(4) { "bad".to_owned() } else { value.to_string() };
    Some(Answer::Correct { entry: None, reading, text, reason: reason() })
}

/// Gives something to the run. A refusal changes nothing; what is taken keeps what must hold.
pub fn checked(drive: &mut Drive, input: &Input) -> Result<Result<(), Refusal>, TestCaseError> {
    let (asked, before) = (drive.ask(), drive.state.clone());
    let taken = drive.input(input.clone());
    if taken.is_err() {
        prop_assert_eq!(&drive.state, &before, "a refused answer changes nothing");
        return Ok(taken);
    }
    remembers_rightly(drive)?;
    prop_assert!(asked != Ask::Finished, "{input:?} after the end");
    if asked == Ask::Resting {
        prop_assert!(*input == Input::Resume, "{input:?} while the run rests");
    }
    let told = Told::of(drive);
    let rules = told.newest_keeps_the_rules();
    rules.map_err(|what| TestCaseError::fail(format!("{what}\n{}", super::story(drive))))?;
    let grown = drive.state.deviations.len() - before.deviations.len();
    prop_assert!(told.newest_departs(grown), "{grown} deviations of {:?}", drive.events.last());
    Ok(taken)
}

/// What is found out of a step once and kept, from entry to entry too, is what is found out of it anew.
fn remembers_rightly(drive: &Drive) -> Result<(), TestCaseError> {
    let memo = Memo::default();
    let fresh = replay(&drive.book, drive.events.iter().map(|(event, stamp)| (event, stamp)));
    let anew = View::new(&drive.book, &fresh, &drive.now);
    let kept = drive.view().remembering(&memo);
    prop_assert_eq!(kept.next(), anew.next());
    prop_assert_eq!(kept.next(), anew.next(), "asked once more");
    prop_assert_eq!(kept.answers_itself(), anew.answers_itself());
    for step in drive.book.procedure.steps() {
        prop_assert_eq!(kept.status(step, None), anew.status(step, None), "step {}", step.number);
    }
    Ok(())
}

/// From any state, fitting answers lead to the end: there is always a way forward.
pub fn finish(mut drive: Drive) -> Result<Drive, TestCaseError> {
    for round in 0..600_u32 {
        let ask = drive.ask();
        let answer = match &ask {
            Ask::Finished => return Ok(drive),
            Ask::Failed(_) => decision(&drive, round),
            // Nobody knows how many passes are wanted where the step that counts them was left out.
            Ask::Flow(FlowAsk::PassEnd(_)) if round > 200 && drive.takes(&given_up()) => given_up(),
            Ask::Late { .. } if round.is_multiple_of(2) => missed(&drive),
            Ask::Late { .. } => accept(),
            Ask::Wait { until, .. } => {
                drive.now = until.clone();
                continue;
            }
            Ask::Resting => {
                prop_assert!(checked(&mut drive, &Input::Resume)?.is_ok());
                continue;
            }
            _ => fitting(&drive, if round.is_multiple_of(5) { 150 } else { 101 }),
        };
        let taken = checked(&mut drive, &Input::Answer(answer.clone()))?;
        prop_assert!(taken.is_ok(), "{answer:?} to {ask:?}: {taken:?}");
    }
    let last: Vec<String> =
        drive.events.iter().rev().take(40).map(|(event, _)| format!("{event:?}")).collect();
    Err(TestCaseError::fail(format!(
        "no end in sight at {:?} after, from the last on, {last:#?}",
        drive.prompt()
    )))
}

fn given_up() -> Answer {
    Answer::Flow(FlowAnswer::GiveUp { disposition: Disposition::UseAsIs, reason: reason() })
}

/// A result that fails is read again or gone on with: one of the two is always possible.
fn decision(drive: &Drive, round: u32) -> Answer {
    let again = Answer::Again { reason: reason() };
    let (first, other) = if round.is_multiple_of(3) { (again, accept()) } else { (accept(), again) };
    if drive.takes(&first) { first } else { other }
}

/// The procedure's own path where it has one, else a deviation.
fn missed(drive: &Drive) -> Answer {
    let path = Answer::Flow(FlowAnswer::Missed);
    if drive.takes(&path) { path } else { accept() }
}
