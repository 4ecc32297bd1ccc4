//! The same procedure again on the same vehicle: what was left the last time, and what was typed into the sheet.

use crate::session::stage::{Stage, words_of};

const PROCEDURE: &str = "+++\nformat = 1\nrevision = \"A\"\ndate = 2026-11-25\nauthor = \"a tester\"\nscope = \"any\"\nlevel_of_use = \"continuous\"\n\
odometer = true\ntools = \"none\"\nmaterials = \"none\"\nparts = \"none\"\nrequired = \"none\"\nclose_up = \"none\"\nhazards = \"none\"\n\
[roles]\nlead = \"works\"\n[vehicle.gap_max]\nwhat = \"widest gap\"\nunit = \"mm\"\nfind = \"manual\"\n\
[vehicle.settle]\nwhat = \"time to settle\"\nunit = \"min\"\nfind = \"manual\"\nusual = \"10 min\"\nusual_why = \"common practice\"\n\
[readings.found]\nwhat = \"gap as found\"\nunit = \"mm\"\nmax = 'gap_max'\nas_found = true\nfails = \"Set it.\"\n\
[readings.left]\nwhat = \"gap as left\"\nunit = \"mm\"\nmax = 'gap_max'\nas_left = \"found\"\nfails = \"Set it again.\"\n\
[readings.can]\nwhat = \"the can says\"\nkind = \"text\"\n+++\n# Gap\n\n1. Read the gap, at most [gap_max]: [found].\n2. Set it: [left].\n\
3. Wait [settle], read the can: [can].\n";

fn sheet(number: &str, more: &str) -> String {
    format!(
        "format = 1\nvehicle = \"an invented one\"\nidentification = \"{number}\"\nodometer_unit = \"km\"\n{more}"
    )
}

/// A closed run on this vehicle; the sheet gives nothing.
fn stage(number: &str) -> Stage {
    let stage = Stage::bare();
    stage.file("gap.md", PROCEDURE);
    stage.file(
        "sheet.toml",
        &sheet(number, "[values.gap_max]\nvalue = \"not given\"\nsource = \"looked for\"\n"),
    );
    let answers = "format = 1\nclock = \"2026-10-12T18:00:00+00:00\"\nanswers = [\n{ at = \"lead\", enter = \"Robin Vale\" },\n\
{ at = \"odometer\", enter = \"151200 km\" },\n{ at = \"gap_max\", enter = \"5\", source = \"page 7-3\" },\n\
{ at = \"settle\", enter = \"usual\", source = \"RV\" },\n{ at = \"scope\", do = \"true\" },\n{ at = \"found\", enter = \"6.5 mm\" },\n\
{ at = \"left\", enter = \"4.2 mm\" },\n{ at = \"can\", enter = \"TB-GO 2\" },\n{ at = \"close\", do = \"close\" },\n]\n";
    stage.file("answers.toml", answers);
    let ran = stage.bayhand(&["run", "gap.md", "--vehicle", "sheet.toml", "--answers", "answers.toml"]);
    assert_eq!(ran.code, Some(0), "{}\n{}", ran.out, ran.err);
    stage
}

#[cfg(unix)]
#[test]
fn what_was_left_stands_beside_the_next_reading_on_the_same_vehicle() {
    use crate::session::seat::{Seat, Speech};
    let given = "[values.gap_max]\nvalue = \"5 mm\"\nsource = \"page 7-3\"\n[values.settle]\nvalue = \"10 min\"\nsource = \"page 7-4\"\n";
    for (number, is_same) in [("EXAMPLE-1", true), ("EXAMPLE-2", false)] {
        let stage = stage("EXAMPLE-1");
        stage.file("next.toml", &sheet(number, given));
        let (procedure, next) = (stage.path("gap.md"), stage.path("next.toml"));
        let arguments = ["run", &procedure.to_string_lossy(), "--vehicle", &next.to_string_lossy()];
        let mut seat = Seat::take(&stage, Speech::NoColour, 100, &arguments);
        seat.line("Name of the lead", "Robin Vale");
        let last = "(2026-10-12, 151200 km, run 2026-10-12-gap)";
        let told = |seat: &Seat, value: &str| {
            assert_eq!(
                seat.said().contains(&format!("Last time: {value} {last}.")),
                is_same,
                "{}",
                seat.said()
            );
        };
        seat.reads("Odometer, in km");
        told(&seat, "151200 km");
        seat.line("Odometer, in km", "152900");
        seat.key("Is it for this vehicle?", "y");
        seat.reads("in mm:");
        told(&seat, "4.2 mm as left");
        seat.line("in mm:", "4.4");
        seat.reads("Set it:");
        told(&seat, "4.2 mm");
        seat.line("in mm:", "4.1");
        seat.reads("read the can");
        told(&seat, "TB-GO 2");
    }
}

#[test]
fn what_was_typed_in_a_run_is_kept_in_the_sheet_with_its_source() {
    let stage = stage("EXAMPLE-1");
    let keep = |sheet: &str| stage.bayhand(&["vehicle", "keep", sheet, "2026-10-12-gap"]);
    let kept = keep("sheet.toml");
    assert_eq!(kept.code, Some(0), "{}", kept.err);
    let said = words_of(&kept.out);
    for words in [
        "1 put in, 0 there already.",
        "gap_max: 5 mm (page 7-3 (typed in run 2026-10-12-gap, entry 4, 2026-10-12))",
        "Taken as common practice, and so not kept as this vehicle's: 1.",
    ] {
        assert!(said.contains(words), "{words}\n{said}");
    }
    let text = stage.text("sheet.toml");
    assert!(!text.contains("not given") && text.contains("[values.gap_max]\nvalue = \"5 mm\""), "{text}");
    assert_eq!(stage.bayhand(&["check", "gap.md", "sheet.toml"]).code, Some(0));

    // What the sheet gives already stays: the same is counted, another is named.
    assert!(words_of(&keep("sheet.toml").out).contains("0 put in, 1 there already"));
    let other = sheet("EXAMPLE-1", "[values.gap_max]\nvalue = \"7 mm\"\nsource = \"page 9\"\n");
    stage.file("other.toml", &other);
    let differs = keep("other.toml");
    assert_eq!(differs.code, Some(1));
    assert!(
        words_of(&differs.out)
            .contains("Not changed, gap_max: the sheet says 7 mm (page 9), the run 5 mm (page 7-3)")
    );
    assert_eq!(stage.text("other.toml"), other);
    stage.file("foreign.toml", &sheet("EXAMPLE-2", ""));
    assert!(keep("foreign.toml").err.contains("of the vehicle EXAMPLE-1"), "another vehicle's sheet");
}
