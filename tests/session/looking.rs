//! Looking around, asking why, leaving a remark: none of it moves the run.

use super::seat::{Seat, Speech};
use super::stage::Stage;
use super::walk;

const MANNERS: [(Speech, u16); 2] = [(Speech::Colour, 40), (Speech::Plain, 80)];

#[test]
fn a_question_says_where_one_is_what_came_last_and_what_comes_next() {
    for (speech, columns) in MANNERS {
        let stage = Stage::with_small_procedure();
        let mut seat = Seat::at_small_procedure(&stage, speech, columns);
        walk::begin(&mut seat);
        walk::support(&mut seat);
        seat.key("1.2 Open the tap.", "d");
        seat.line("in psi:", "1 bar");
        seat.reads("in mL:");
        let said = seat.said();
        for words in [
            "2.2 Catch the fluid in the measuring jug",
            "pressure at the tap: 1 bar = 14.504 psi: pass",
            "4/15",
            "Next: 2.3 Look at",
        ] {
            assert!(said.contains(words), "`{words}` is not in {said}");
        }
    }
}

/// Opens a step of the list: by its number in lines, with the arrows from where the mark stands elsewhere.
fn opens(seat: &mut Seat, number: &str, down: usize) {
    if seat.is_plain() {
        seat.line("All steps; one is read in full", number);
    } else {
        seat.item("All steps; one is read in full", down);
    }
}

/// Goes back from a step to the list, and from the list to the question.
fn back(seat: &mut Seat) {
    let enter = if seat.is_plain() { "" } else { "\r" };
    seat.key("[Enter] back to the steps", enter);
}

#[test]
fn looking_around_changes_nothing() {
    for (speech, columns) in MANNERS {
        let stage = Stage::with_small_procedure();
        let mut seat = Seat::at_small_procedure(&stage, speech, columns);
        walk::begin(&mut seat);
        seat.reads("Read and understood?");
        let before = stage.journal_lines();
        seat.key("Read and understood?", "o");
        seat.key("[w] where we are: look around at all steps", "w");
        seat.reads("1.1 current: Check the stands");
        opens(&mut seat, "1.1", 0);
        seat.reads("- Each pin is locked");
        assert!(
            seat.said().contains("It crushes and kills"),
            "the hazard is read ahead too: {}",
            seat.said()
        );
        back(&mut seat);
        opens(&mut seat, "2.1", 3);
        seat.reads("2.1 Read the pressure at the tap");
        back(&mut seat);
        seat.reads("All steps; one is read in full");
        seat.types(if seat.is_plain() { "\r" } else { "\u{1b}" });
        seat.reads("Read and understood?");
        assert_eq!(stage.journal_lines(), before);
    }
}

#[test]
fn from_the_list_a_step_is_put_off_until_the_one_that_is_read() {
    for (speech, columns) in MANNERS {
        let stage = Stage::with_small_procedure();
        let mut seat = Seat::at_small_procedure(&stage, speech, columns);
        walk::begin(&mut seat);
        walk::support(&mut seat);
        seat.key("1.2 Open the tap.", "d");
        seat.line("in psi:", "o");
        seat.key("[w] where we are: look around at all steps", "w");
        opens(&mut seat, "2.3", 2);
        seat.key("[l] step 2.1 waits until just before this", "l");
        seat.line("Why later?", "the gauge is in the car");
        seat.reads("step 2.1 comes back before step 2.3");
        assert_eq!(stage.kinds().last().map(String::as_str), Some("deferred"));
    }
}

#[test]
fn why_is_answered_at_a_key_and_at_a_line() {
    for (speech, columns) in MANNERS {
        let stage = Stage::with_small_procedure();
        let mut seat = Seat::at_small_procedure(&stage, speech, columns);
        seat.line("Name of the lead", "?");
        seat.reads("Every entry names a person");
        walk::begin(&mut seat);
        seat.key("Read and understood?", "?");
        seat.reads("A hazard that can kill or maim is read before the step");
        seat.key("Read and understood?", "a");
        seat.key("1 of 2:", "?");
        seat.reads("Why: Nothing but the stands keeps the vehicle up.");
        assert_eq!(stage.kinds()[6..], ["acknowledged"]);
    }
}

#[test]
fn a_remark_is_kept_and_the_question_stays() {
    for (speech, columns) in MANNERS {
        let stage = Stage::with_small_procedure();
        let mut seat = Seat::at_small_procedure(&stage, speech, columns);
        walk::begin(&mut seat);
        seat.key("Read and understood?", "o");
        seat.key("[r] remark", "r");
        seat.line("Remark:", "the lamp is weak");
        seat.reads("Last: remark kept");
        seat.reads("Read and understood?");
        assert_eq!(stage.kinds()[6..], ["note"]);
    }
}

#[test]
fn an_earlier_reading_is_corrected_from_any_question() {
    let stage = Stage::with_small_procedure();
    let mut seat = Seat::at_small_procedure(&stage, Speech::NoColour, 40);
    walk::begin(&mut seat);
    walk::support(&mut seat);
    seat.key("1.2 Open the tap.", "d");
    seat.line("in psi:", "12");
    seat.line("in mL:", "");
    seat.key("[c] correct an earlier reading or entry", "c");
    seat.item("Which entry was wrong", 0);
    seat.line("What was it really?", "twenty-one");
    seat.reads("Not taken:");
    seat.line("What was it really?", "21");
    seat.line("What was wrong with the entry?", "digits swapped");
    seat.reads("21 psi: pass");
    seat.reads("in mL:");
    assert_eq!(stage.kinds()[12..], ["reading", "correction"]);
}

/// A step with parts stands where its first part does; where the passes are used up, no step is said to be the present
/// one, and none to come next.
#[test]
fn the_place_of_a_step_with_parts_and_of_a_repeat_that_is_used_up() {
    let stage = Stage::bare();
    let tables = "[hazards.hot]\nsignal = \"WARNING\"\nhazard = \"hot\"\nconsequence = \"burns\"\navoid = \"wait\"\n\
[readings.gap]\nwhat = \"gap\"\nunit = \"mm\"\ninformation_only = true\n\
[repeats.turn]\nwhat = \"turn\"\nuntil = 'gap < 1 mm'\nat_most = 1\nfails = \"Look for what binds.\"\n";
    let body = "1. Wipe it.\n2. [hot] Turn it:\n   1. [turn] Read the [gap].\n3. Wash it.\n";
    stage.file("turn.md", &crate::run::drive::titled("Start it cold", tables, body));
    let procedure = stage.path("turn.md").to_string_lossy().into_owned();
    let mut seat = Seat::take(&stage, Speech::NoColour, 80, &["run", &procedure]);
    seat.line("Name of the lead (does the work):", "Robin Vale");
    seat.line("Odometer, in km or with its unit:", "187400 km");
    seat.key("Is it for this vehicle?", "y");
    seat.key("1 Wipe it.", "d");
    seat.key("Read and understood?", "a");
    seat.line("in mm:", "2");
    seat.reads("[t] try one more pass");
    let said = seat.said();
    assert!(said.contains("was the last that the procedure allows"), "{said}");
    assert!(!said.contains("/3") && !said.contains("Next: "), "{said}");
}
