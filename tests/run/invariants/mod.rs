//! Whatever the procedure is and whatever a person answers: what must always hold.

pub mod acts;
pub mod answers;
mod counted;
mod ended;
mod kinds;
pub mod procedures;
pub mod told;

use bayhand::run::{Input, replay};
use proptest::prelude::*;

use self::acts::{Act, act, acts, finish};
use self::procedures::{Part, parts, run, shapes};
use self::told::Told;
use super::drive::Drive;
use crate::campaign::cases;

/// A run of a random procedure in which somebody has done all this.
pub fn driven(parts: &[Part], acts: &[Act]) -> Result<Drive, TestCaseError> {
    let mut drive = run(parts);
    acts.iter().try_for_each(|one| act(&mut drive, one))?;
    Ok(drive)
}

/// Everything that has happened, for whoever looks for a fault.
pub fn story(drive: &Drive) -> String {
    let told = drive.events.iter().map(|(event, stamp)| format!("{} {} {event:?}", stamp.seq, stamp.at));
    told.collect::<Vec<_>>().join("\n")
}

fn replayed(drive: &Drive) -> bayhand::run::State {
    replay(&drive.book, drive.events.iter().map(|(event, stamp)| (event, stamp)))
}

/// Led to its end, everything is there.
fn ends_well(drive: Drive) -> Result<(), TestCaseError> {
    let ended = finish(drive)?;
    Told::of(&ended)
        .is_ended_well()
        .map_err(|what| TestCaseError::fail(format!("{what}\n{}", story(&ended))))?;
    prop_assert!(ended.view().unsealed_items().is_empty());
    prop_assert!(ended.view().protections().is_empty());
    Ok(())
}

#[test]
fn each_kind_of_section_is_led_to_its_end() {
    for part in shapes() {
        let ended = ends_well(run(&[part]));
        assert!(ended.is_ok(), "{part:?}: {ended:?}");
    }
}

proptest! {
    #![proptest_config(cases(40))]

    #[test]
    fn whatever_is_answered(parts in parts(), acts in acts()) {
        let drive = driven(&parts, &acts)?;
        prop_assert_eq!(&replayed(&drive), &drive.state, "replay equals live");
        ends_well(drive)?;
    }

    #[test]
    fn any_prefix_of_a_journal_replays(parts in parts(), acts in acts(), cut in any::<prop::sample::Index>()) {
        let mut drive = driven(&parts, &acts)?;
        let kept = cut.index(drive.events.len()).max(1);
        drive.events.truncate(kept);
        drive.state = replayed(&drive);
        drive.input(Input::Resume).ok();
        ends_well(drive)?;
    }
}
