//! A warning is acknowledged apart from its step, and nothing but a person's own word passes a hold point.

use super::seat::{Seat, Speech};
use super::stage::Stage;
use super::walk;

const MANNERS: [(Speech, u16); 2] = [(Speech::NoColour, 40), (Speech::Plain, 80)];

/// Enter held down at a question, then a key that is nowhere offered, to see that all of them were read.
fn hold_enter(seat: &mut Seat, words: &str) {
    seat.reads(words);
    seat.types(&"\r".repeat(50));
    a_key_that_is_not_offered(seat);
}

/// At a line, Enter alone asks what else is wanted, and there it goes back.
fn hold_enter_at_a_line(seat: &mut Seat, words: &str) {
    seat.reads(words);
    seat.types(&"\r".repeat(50));
    seat.sees("[Enter] back to the question");
}

fn a_key_that_is_not_offered(seat: &mut Seat) {
    seat.types(if seat.is_plain() { "x\r" } else { "x" });
    seat.sees("`x` is not asked for here.");
}

#[test]
fn enter_held_down_passes_nothing() {
    for (speech, columns) in MANNERS {
        let stage = Stage::with_small_procedure();
        let mut seat = Seat::at_small_procedure(&stage, speech, columns);
        walk::begin(&mut seat);
        hold_enter(&mut seat, "Read and understood?");
        assert_eq!(stage.kinds().len(), 6, "nothing was acknowledged");
        seat.key("", "a");
        hold_enter(&mut seat, "1 of 2: The vehicle stands");
        seat.key("", "y");
        hold_enter(&mut seat, "2 of 2: Each pin");
        seat.key("", "y");
        hold_enter_at_a_line(&mut seat, "Released by Robin Vale (lead)");
        assert_eq!(stage.kinds()[6..], ["acknowledged", "confirmed", "confirmed"], "{speech:?}");
    }
}

#[test]
fn the_warning_stands_with_its_own_question_before_the_step() {
    for (speech, columns) in MANNERS {
        let stage = Stage::with_small_procedure();
        let mut seat = Seat::at_small_procedure(&stage, speech, columns);
        walk::begin(&mut seat);
        seat.reads(walk::WARNING);
        assert!(!seat.said().contains("1 of 2:"));
        seat.key("Read and understood?", "a");
        seat.reads("1 of 2: The vehicle stands");
        assert_eq!(stage.kinds().last().map(String::as_str), Some("acknowledged"));
        let said = seat.said();
        assert!(
            said.contains("WARNING The vehicle can come off its stands."),
            "its name stands with the step"
        );
        assert!(!said.contains("It crushes and kills"), "what was read is not told again");
    }
}

#[test]
fn a_hold_point_is_released_by_the_right_people_only() {
    for (speech, columns) in MANNERS {
        let stage = Stage::with_small_procedure();
        let mut seat = Seat::at_small_procedure(&stage, speech, columns);
        walk::begin(&mut seat);
        seat.key("Read and understood?", "a");
        seat.key("1 of 2:", "y");
        seat.key("2 of 2:", "y");
        seat.line("Released by Robin Vale (lead); name or initials:", "SH");
        seat.reads("Not taken: `SH` does not release this; Robin Vale (lead) does");
        seat.line("Released by Robin Vale (lead); name or initials:", "robin vale");
        seat.line("Released by Sam Hollis (helper); name or initials:", "RV");
        seat.reads("Not taken: `RV` does not release this; Sam Hollis (helper) does");
        seat.line("Released by Sam Hollis (helper); name or initials:", "SH");
        seat.reads("In force: vehicle on stands");
        assert_eq!(stage.kinds()[6..], ["acknowledged", "confirmed", "confirmed", "released", "released"]);
    }
}

#[test]
fn a_statement_that_is_not_so_keeps_it_shut() {
    let stage = Stage::with_small_procedure();
    let mut seat = Seat::at_small_procedure(&stage, Speech::Colour, 80);
    walk::begin(&mut seat);
    seat.key("Read and understood?", "a");
    seat.key("1 of 2:", "n");
    seat.line("How is it?", "one wheel hangs on the jack");
    seat.key("It was not so: one wheel hangs on the jack", "o");
    seat.reads("[v] declare a deviation");
    let said = seat.said();
    assert!(!said.contains("this step later") && !said.contains("not applicable"), "never offered: {said}");
    seat.key("[Enter] back to the question", "n");
    seat.sees("`n` is not asked for here.");
    assert_eq!(stage.kinds()[6..], ["acknowledged", "contradicted"]);
}

#[test]
fn something_moved_asks_for_the_hold_point_again() {
    for (speech, columns) in MANNERS {
        let stage = Stage::with_small_procedure();
        let mut seat = Seat::at_small_procedure(&stage, speech, columns);
        walk::begin(&mut seat);
        walk::support(&mut seat);
        seat.key("1.2 Open the tap.", "o");
        seat.key("[m] something was moved or used", "m");
        seat.line("What was moved or used?", "the jack");
        seat.item("What rests on it?", 0);
        seat.reads("LAPSED, verify again");
        seat.key("Read and understood?", "a");
        seat.reads("Verify it again:");
        walk::verify_again(&mut seat);
        seat.reads("1.2 Open the tap.");
        let kinds = stage.kinds();
        assert_eq!(kinds.iter().filter(|kind| *kind == "released").count(), 4, "{kinds:?}");
    }
}

/// What nothing rests on is a remark.
#[test]
fn something_moved_that_nothing_rests_on_lapses_nothing() {
    let stage = Stage::with_small_procedure();
    let mut seat = Seat::at_small_procedure(&stage, Speech::NoColour, 40);
    walk::begin(&mut seat);
    walk::support(&mut seat);
    seat.key("1.2 Open the tap.", "o");
    seat.key("[m] something was moved or used", "m");
    seat.line("What was moved or used?", "the lamp");
    seat.item("What rests on it?", 2);
    seat.reads("1.2 Open the tap.");
    assert!(!seat.said().contains("LAPSED"), "{}", seat.said());
    assert_eq!(stage.kinds().last().map(String::as_str), Some("note"));
}
