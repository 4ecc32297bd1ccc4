//! A correction gives what the right entry would have given at once, wherever the way does not differ. Where it differs,
//! the run asks what no longer agrees before it is closed.

use bayhand::run::State;
use proptest::prelude::*;
use proptest::sample::Index;

use super::super::drive::Drive;
use super::super::invariants::acts::{act, acts, finish};
use super::super::invariants::procedures::{parts, run};
use super::super::invariants::story;
use super::sayings::record_of;
use super::slips::{Slip, slip};
use super::twins::same_but_for_the_correction;
use crate::campaign::cases;

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
    Parted(Box<Twins>),
}

/// The run without anything in it yet.
fn empty(drive: &Drive) -> Drive {
    let (state, now) = (State::default(), drive.heard[0].1.clone());
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
        let is_time = has_slipped && (place > until || !twins.same_question());
        if is_time && !twins.correct(slip)? && !twins.same_question() {
            return Ok(Became::NotCorrected);
        }
        if twins.is_decided_anew || !twins.same_question() {
            return Ok(Became::Parted(Box::new(twins)));
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
                return Ok(Became::Parted(Box::new(twins)));
            }
        }
        twins.right.input(input.clone()).unwrap();
    }
    if twins.corrected.is_none() {
        return Ok(Became::NotCorrected);
    }
    if twins.is_decided_anew {
        return Ok(Became::Parted(Box::new(twins)));
    }
    twins.agree()?;
    Ok(Became::Same)
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
