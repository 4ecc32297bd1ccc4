//! Lists whose order is free, parts of steps, hold points among them.

use bayhand::run::{Answer, Ask, Refusal};
use proptest::prelude::*;

use super::drive::Drive;

fn picked(drive: &mut Drive, number: &str) {
    if matches!(drive.ask(), Ask::Pick(_)) {
        let step = drive.step(number);
        drive.take(Answer::Pick(step));
    }
}

proptest! {
    /// Any of the n! orders completes the group.
    #[test]
    fn any_order_completes(order in Just(vec![1, 2, 3, 4]).prop_shuffle()) {
        let mut drive = Drive::of("", "- One.\n- Two.\n- Three.\n- Four.\n");
        for place in order {
            let number = format!("1.{place}");
            picked(&mut drive, &number);
            prop_assert_eq!(drive.label(), number);
            drive.done();
        }
        prop_assert_eq!(drive.ask(), Ask::Close);
    }
}

#[test]
fn one_that_was_not_offered_is_refused() {
    let mut drive = Drive::of("", "- One.\n- Two.\n\n## More\n\n1. Three.\n");
    let other = drive.step("2.1");
    assert_eq!(drive.answer(Answer::Pick(other)), Err(Refusal::NotOffered));
}

#[test]
fn parts_complete_their_step_and_keep_to_the_one_picked() {
    let mut drive = Drive::of("", "- Left side:\n  1. Loosen.\n  2. Lift off.\n- Right side.\n");
    picked(&mut drive, "1.1");
    assert_eq!(drive.label(), "1.1.1");
    drive.done();
    assert_eq!(drive.label(), "1.1.2");
    assert_eq!(drive.status("1.1"), "not started");
    drive.done();
    assert_eq!(drive.status("1.1"), "done");
    assert_eq!(drive.label(), "1.2");
}

/// Whoever begins with the last one still has the first before them.
#[test]
fn what_comes_next_is_what_is_left_of_the_list() {
    let mut drive = Drive::of("", "- One.\n- Two.\n- Three.\n\n## More\n\n1. Four.\n");
    let next = |drive: &Drive, at: &str| match drive.view().after(drive.step(at)) {
        Some(step) => step.number.clone(),
        other => panic!("{other:?}"),
    };
    picked(&mut drive, "1.3");
    assert_eq!(next(&drive, "1.3"), "1.1");
    drive.done();
    picked(&mut drive, "1.1");
    assert_eq!(next(&drive, "1.1"), "1.2");
    drive.done();
    assert_eq!(next(&drive, "1.2"), "2.1");
}

#[test]
fn a_hold_point_comes_first_even_where_the_order_is_free() {
    let tables = "[holds.air]\nwhat = \"Fresh air\"\nconfirm = [\"doors open\"]\nrelease = \"lead\"\n";
    let mut drive = Drive::of(tables, "- Pour.\n- Check the air: [air].\n- Wipe.\n");
    assert!(matches!(drive.ask(), Ask::Confirm { .. }));
    drive.release();
    assert!(matches!(drive.ask(), Ask::Pick(_)));
}
