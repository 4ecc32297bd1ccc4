//! Screen, status and record say the same of every occurrence, whatever the procedure is and whatever a person answers.

mod corrected;
mod sayings;
mod slips;
mod twins;

use proptest::prelude::*;

use self::sayings::{agree, screen_agrees};
use super::drive::Drive;
use super::invariants::acts::{act, acts, finish};
use super::invariants::procedures::{parts, run};
use super::invariants::story;
use crate::campaign::cases;

/// The three say the same of a run as it stands.
fn says_the_same(drive: &Drive) -> Result<(), TestCaseError> {
    let said = agree(drive).and_then(|()| screen_agrees(drive));
    said.map_err(|what| TestCaseError::fail(format!("{what}\n{}", story(drive))))
}

proptest! {
    #![proptest_config(cases(24))]

    #[test]
    fn screen_status_and_record_say_the_same(parts in parts(), acts in acts(), every in 5_usize..40) {
        let mut drive = run(&parts);
        for (place, one) in acts.iter().enumerate() {
            act(&mut drive, one)?;
            if place.is_multiple_of(every) {
                says_the_same(&drive)?;
            }
        }
        says_the_same(&drive)?;
        says_the_same(&finish(drive)?)?;
    }
}
