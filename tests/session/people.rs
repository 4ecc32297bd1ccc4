//! Two people at one terminal: the second reading is blind, and nothing on the screen tells the first.

use super::seat::{Seat, Speech};
use super::stage::{Stage, words_of};

const TWICE: &str = include_str!("../cases/record/twice.md");
const READ: &str = "in N·m:";

fn stage() -> Stage {
    let stage = Stage::bare();
    stage.file("twice.md", TWICE);
    stage
}

/// Both are briefed, the hold point is released, the thread is seen.
fn at_the_bolt(stage: &Stage, speech: Speech, columns: u16) -> Seat {
    let procedure = stage.path("twice.md");
    let mut seat = Seat::take(stage, speech, columns, &["run", &procedure.to_string_lossy()]);
    seat.line("Name of the lead (tightens and releases):", "Robin Vale");
    seat.line("Name of the helper (reads again and checks):", "Sam Hollis");
    seat.line("Odometer, in km or with its unit:", "187400 km");
    seat.key("Is it for this vehicle?", "y");
    seat.reads("Roles: Robin Vale (lead): tightens and releases; Sam Hollis (helper)");
    seat.reads("Hazards: WARNING The bracket can swing.");
    seat.reads("Hold points: The bracket hangs still");
    seat.line("Present, by name or initials, with commas between:", "RV");
    seat.reads("Not taken: Sam Hollis must hear the brief too");
    seat.line("Present, by name or initials, with commas between:", "RV, SH");
    seat.key("Read and understood?", "a");
    seat.key("1 of 1: the strap is tight", "y");
    seat.line("Released by Robin Vale (lead); name or initials:", "RV");
    seat.key("Witness point: the thread before the bolt goes in", "y");
    seat.line("Sam Hollis (helper), name or initials:", "SH");
    seat
}

/// Nothing on the screen, whatever is looked at, shows these digits.
fn is_out_of_sight(seat: &mut Seat, digits: &str) {
    let hides = |seat: &Seat| {
        let screen = words_of(&seat.pty.screen_text());
        assert!(!screen.contains(digits), "{digits} is in sight:\n{screen}");
        assert!(!screen.contains("Earlier:"), "{screen}");
        assert!(!screen.contains("fail"), "how it was judged is in sight:\n{screen}");
    };
    seat.reads("Second reading, blind to the first. Sam Hollis (helper) reads it now");
    hides(seat);
    seat.line(READ, "?");
    seat.reads("Whoever has seen the first reading tends to read the same.");
    hides(seat);
    seat.line(READ, "");
    seat.key("[w] where we are: look around at all steps", "w");
    seat.reads("1.2 current: Tighten the bolt");
    hides(seat);
    seat.item("All steps; one is read in full", 0);
    seat.reads("1.2 Tighten the bolt and read it: [torque of the bolt].");
    hides(seat);
    seat.key("[Enter] back to the steps", "\r");
    seat.reads("All steps; one is read in full");
    seat.types("\u{1b}");
    seat.line(READ, "");
    seat.key("[c] correct an earlier reading", "c");
    seat.reads("torque of the bolt");
    hides(seat);
    seat.types("\u{3}");
    seat.reads("Second reading, blind to the first.");
}

#[test]
fn the_second_reading_is_blind_and_a_difference_holds_the_step() {
    for (speech, columns) in [(Speech::NoColour, 80), (Speech::Colour, 40)] {
        let stage = stage();
        let mut seat = at_the_bolt(&stage, speech, columns);
        seat.line(READ, "77.7");
        is_out_of_sight(&mut seat, "77.7");
        seat.line(READ, "49");
        seat.reads("The two readings differ: torque of the bolt");
        seat.reads("First 77.7 N·m (Robin Vale); second 49 N·m (Sam Hollis).");
        seat.key("[t] both read it again", "t");
        seat.line("Why do they differ?", "read at the wrong scale");
        seat.line(READ, "50");
        seat.line("blind to the first", "51");
        seat.reads("the readings agree: first 50 N·m (Robin Vale), second 51 N·m (Sam Hollis)");
        seat.key("Independent verification: the paint mark stands across bolt and bracket", "y");
        seat.line("Sam Hollis (helper), name or initials:", "RV");
        seat.reads("Not taken: `RV` is not Sam Hollis (helper)");
        seat.key("Independent verification:", "y");
        seat.line("Sam Hollis (helper), name or initials:", "SH");
        seat.reads("Challenge and response: Robin Vale reads this aloud; Sam Hollis answers");
        seat.key("[1] in P [2] in N", "1");
        seat.key("Awaiting check. Done by Sam Hollis. Robin Vale (lead) looks at it", "y");
        seat.line("Robin Vale (lead), name or initials:", "RV");
        seat.reads("By: Robin Vale and Sam Hollis together");
    }
}

#[test]
fn somebody_takes_over_in_the_middle_and_accepts_first() {
    let stage = stage();
    let mut seat = at_the_bolt(&stage, Speech::NoColour, 80);
    seat.line(READ, "");
    seat.key("[h] hand over: somebody else takes a role", "h");
    seat.item("Which role goes to somebody else", 1);
    seat.line("Who takes over as helper?", "Kim Day");
    seat.line("What must they know", "the bolt is hand-tight");
    seat.reads("Turnover: Kim Day takes over as helper from Sam Hollis.");
    seat.reads("Sam Hollis says: the bolt is hand-tight");
    seat.line("Brief read and accepted by Kim Day (helper); name or initials:", "SH");
    seat.reads("Not taken: `SH` is not Kim Day (helper)");
    seat.line("Brief read and accepted by Kim Day (helper); name or initials:", "KD");
    seat.line("Present, by name or initials, with commas between:", "RV, KD");
    // Whoever came has not read the hazard yet.
    seat.key("Read and understood?", "a");
    seat.key("Verify it again: Kim Day took over as helper.", "y");
    seat.line("Released by Robin Vale (lead); name or initials:", "RV");
    seat.reads(READ);
}

#[test]
fn the_whole_procedure_names_who_else_looks() {
    let shown = words_of(&stage().bayhand(&["show", "twice.md"]).out);
    assert!(
        shown.contains("Witness point, the helper is called: the thread before the bolt goes in"),
        "{shown}"
    );
    assert!(
        shown.contains("Then verified by the helper: the paint mark stands across bolt and bracket"),
        "{shown}"
    );
}

const ANSWERS: &str = "format = 1\nclock = \"2026-11-21T09:10:00+00:00\"\nanswers = [\n\
{ at = \"lead\", enter = \"Robin Vale\" },\n{ at = \"helper\", enter = \"Sam Hollis\" },\n\
{ at = \"odometer\", enter = \"187400 km\" },\n{ at = \"scope\", do = \"true\" },\n{ at = \"pre-job brief\", enter = \"RV, SH\" },\n\
{ at = \"pinch\", do = \"acknowledge\" },\n{ at = \"still\", do = \"true\" },\n{ at = \"still\", enter = \"RV\" },\n\
{ at = \"thread\", do = \"absent\", reason = \"at the telephone\" },\n\
{ at = \"torque\", do = \"suspend\", reason = \"night\", state = \"bolt loose\" },\n\
]\n";

const NEXT_DAY: &str = "format = 1\nclock = \"2026-11-22T09:10:00+00:00\"\nanswers = [\n{ at = \"brief\", do = \"read\" },\n\
{ at = \"lead\", do = \"keep\" },\n{ at = \"helper\", enter = \"Kim Day\" },\n{ at = \"turnover\", enter = \"KD\" },\n\
{ at = \"pre-job brief\", enter = \"Robin Vale, Kim Day\" },\n{ at = \"pinch\", do = \"acknowledge\" },\n\
{ at = \"still\", do = \"true\" },\n{ at = \"still\", enter = \"RV\" },\n\
{ at = \"torque\", enter = \"50\" },\n{ at = \"second torque\", enter = \"53\" },\n\
{ at = \"torque\", do = \"accept\", disposition = \"use as is\", reason = \"an old wrench\" },\n\
{ at = \"mark\", do = \"re-inspect\", enter = \"RV\", reason = \"Kim is out\", after = \"12 min\" },\n\
{ at = \"lever\", enter = \"in P\" },\n{ at = \"sign-off 1.3\", do = \"untrue\", state = \"it stands in N\" },\n\
{ at = \"lever\", enter = \"in P\" },\n{ at = \"sign-off 1.3\", enter = \"RV\" },\n\
{ at = \"level\", enter = \"12 mm\" },\n\
{ at = \"deviation 2\", do = \"dispose\", disposition = \"use as is\", reason = \"the mark is plain to see\" },\n\
{ at = \"close\", do = \"close\" },\n]\n";

/// From the file to the record: everything that people did stands in it, under its own name.
#[test]
fn answers_from_a_file_lead_to_the_record() {
    let stage = stage();
    for (name, text) in [("day1.toml", ANSWERS), ("day2.toml", NEXT_DAY)] {
        stage.file(name, text);
        let ended = stage.bayhand(&["run", "twice.md", "--answers", name]);
        assert!([Some(0), Some(5)].contains(&ended.code), "{:?}\n{}\n{}", ended.code, ended.out, ended.err);
    }
    let record = words_of(&stage.bayhand(&["record"]).out);
    for words in [
        "Deviations: 2",
        "1.2 NOT WITNESSED: the thread before the bolt goes in: nobody (helper)",
        "1.2 RE-INSPECTION (ONE PERSON): the paint mark stands across bolt and bracket: Robin Vale (helper)",
        "re-inspection (one person): the paint mark",
        "second reading, blind to the first: 53 N·m",
        "the two readings differ",
        "1.3 FOUND OTHERWISE: Robin Vale (lead)",
        "SET ASIDE: found otherwise: it stands in N",
        "Look at the lever: in P.",
        "it was: it stands in N",
        "1.3 SIGN-OFF: Robin Vale (lead)",
        "took over from: Sam Hollis",
        "present: Robin Vale and Kim Day",
        "ended: Kim Day took over as helper",
    ] {
        assert!(record.contains(words), "{words}\n{record}");
    }
    assert!(!record.contains("INDEPENDENT VERIFICATION"), "a re-inspection is never independent");
    assert_eq!(bayhand::record::verify(&stage.bayhand(&["record", "--json"]).out), Ok(()));
}
