//! Before what cannot be undone, neither Enter nor any other key held down passes.

use super::seat::{Seat, Speech};
use super::stage::Stage;
use crate::run::drive::titled;

const CUT: &str = "[critical.cut]\nwhat = \"the hose is cut\"\ntype = \"cut it\"\n";

#[test]
fn a_key_held_down_passes_no_critical_step() {
    for (speech, columns) in [(Speech::NoColour, 60), (Speech::Plain, 80)] {
        let stage = Stage::bare();
        let procedure = stage.file(
            "hose.md",
            &titled("Bleed the demo circuit", CUT, "1. [cut] Cut the hose behind the clamp.\n"),
        );
        let mut seat = Seat::take(&stage, speech, columns, &["run", &procedure.to_string_lossy()]);
        seat.line("Name of the lead (does the work):", "Robin Vale");
        seat.line("Odometer, in km or with its unit:", "187400 km");
        seat.key("Is it for this vehicle?", "y");
        seat.reads("It cannot be undone: the hose is cut");
        // Linear output takes each line for itself: an odd number of them ends among what else can be done.
        seat.types(&"\r".repeat(51));
        seat.sees("[Enter] back to the question");
        let end = if seat.is_plain() { "\r" } else { "" };
        seat.types(&format!("x{end}"));
        seat.sees("`x` is not asked for here.");
        seat.types("\r");
        for held in ["y", "yyyyyyyyyyyyyyyy", "dddddddd"] {
            seat.line("Type it to go on:", held);
            seat.reads(&format!("Not taken: `{held}` is not what is typed here"));
        }
        assert_eq!(stage.kinds().len(), 4, "{speech:?}: nothing was passed: {:?}", stage.kinds());
        seat.line("Type it to go on:", "cut it");
        seat.key("[d] done", "d");
        seat.key("[e] end: close and seal the run", "e");
        assert_eq!(seat.leaves(), 0);
        assert_eq!(stage.kinds()[4..6], ["particular", "done"]);
    }
}
