//! What no number judges, at a terminal: a person says good or not good, by name.

use super::seat::{Seat, Speech};
use super::stage::Stage;

const MANNERS: [(Speech, u16); 3] = [(Speech::NoColour, 80), (Speech::Colour, 40), (Speech::Plain, 80)];

const HEAD: &str = "+++
format = 1
revision = \"A\"
date = 2026-11-29
author = \"test\"
scope = \"any\"
level_of_use = \"continuous\"
tools = \"none\"
materials = \"none\"
parts = \"none\"
hazards = \"none\"
required = \"none\"
close_up = \"none\"

[roles]
lead = \"does the work\"
";

const FIVE: &str = "
[readings.five]
what = \"voltage from T4 to T2\"
unit = \"V\"
nominal = \"5 V\"
fails = \"Look for a broken wire.\"

+++

# Start it cold

## One

1. Read it: [five].
2. Close the lid.
";

/// A procedure of these tables and steps, and a person in front of it.
fn sit(stage: &Stage, of: &str, speech: Speech, columns: u16) -> Seat {
    let procedure = stage.file("judged.md", &format!("{HEAD}{of}"));
    let mut seat = Seat::take(stage, speech, columns, &["run", &procedure.to_string_lossy()]);
    seat.line("Name of the lead", "Robin Vale");
    seat.key("Is it for this vehicle?", "y");
    seat
}

#[test]
fn good_or_not_good_is_asked_beside_a_nominal_value() {
    for (speech, columns) in MANNERS {
        let stage = Stage::bare();
        let mut seat = sit(&stage, FIVE, speech, columns);
        seat.reads("nominal 5 V; you say whether it is good");
        seat.line("in V:", "0.1");
        seat.reads("0.1 V: nominal 5 V, not judged yet");
        seat.key("Robin Vale: is it good?", "?");
        seat.key("a person has to judge", "n");
        seat.line("What is wrong?", "no supply");
        seat.reads("nominal 5 V, not good by Robin Vale: no supply");
        seat.reads("Look for a broken wire.");
        seat.key("[t] take it again", "t");
        seat.line("What was done about it?", "wire mended");
        seat.line("voltage from T4 to T2, in V:", "5.1");
        seat.key("Robin Vale: is it good?", "y");
        seat.reads("5.1 V: nominal 5 V, good by Robin Vale");
        seat.reads("2 Close the lid.");
        let status = stage.bayhand(&["status"]);
        assert!(
            status.out.contains("good by Robin Vale") || status.out.contains("1.2 current"),
            "{}",
            status.out
        );
        seat.key("2 Close the lid.", "d");
    }
}
