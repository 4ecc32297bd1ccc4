//! A group of fasteners at the terminal: one key a place, the grid, and the exact place after an interruption.

use serde_json::Value;

use super::seat::{Seat, Speech};
use super::stage::{Stage, words_of};

const MANNERS: [(Speech, u16); 3] = [(Speech::Colour, 80), (Speech::NoColour, 40), (Speech::Plain, 80)];

fn stage() -> Stage {
    let stage = Stage::bare();
    stage.file("flange.md", include_str!("../cases/session/flange.md"));
    stage
}

fn sit(stage: &Stage, speech: Speech, columns: u16) -> Seat {
    let procedure = stage.path("flange.md").to_string_lossy().into_owned();
    Seat::take(stage, speech, columns, &["run", &procedure])
}

fn begin(seat: &mut Seat) {
    seat.line("Name of the lead (does the work):", "Robin Vale");
    seat.line("Odometer, in km or with its unit:", "187400 km");
    seat.line("torque of the flange bolts (find it in: service manual, demo flange), in N·m:", "20 N·m");
    seat.line("Where was it found (document, page)?", "page 7");
    seat.key("Is it for this vehicle?", "y");
    seat.line("1.1 Count the bolts: [bolts of the flange].", "8");
}

/// Each place by its own key.
fn places(seat: &mut Seat, places: &[&str]) {
    for place in places {
        seat.key(&format!("[{place}] {place} is done"), place);
    }
}

const CROSS: [&str; 8] = ["1", "5", "3", "7", "2", "6", "4", "8"];

fn tightened(stage: &Stage) -> Vec<(u64, String)> {
    let events = stage.events();
    let at = events.iter().filter_map(|event| event.get("fastening")?.get("tightened")?.get("at"));
    let text = |at: &Value| at["position"].as_str().expect("a place").to_owned();
    at.map(|at| (at["stage"].as_u64().expect("a stage"), text(at))).collect()
}

#[test]
fn a_whole_group_at_every_manner_of_terminal() {
    for (speech, columns) in MANNERS {
        let stage = stage();
        let mut seat = sit(&stage, speech, columns);
        begin(&mut seat);
        places(&mut seat, &CROSS);
        seat.key("Set the torque wrench to 10 N·m (9 N·m to 11 N·m).", "b");
        seat.reads("Tighten to 10 N·m (9 N·m to 11 N·m).");
        seat.reads("Target: 0.5 × torque of the flange bolts 20 N·m = 10 N·m");
        seat.reads("With: torque wrench");
        places(&mut seat, &CROSS);
        seat.key("Next stage: full.", "b");
        seat.line("1, what was reached, in N·m:", "17.5");
        seat.key("fail, 0.5 N·m below the minimum", "t");
        seat.line("What was done about it?", "pulled once more");
        for place in CROSS {
            seat.line(&format!("{place}, what was reached, in N·m:"), "20");
        }
        seat.key("3 Wipe the flange.", "d");
        seat.key("[e] end: close and seal the run", "e");
        assert_eq!(seat.leaves(), 0, "{speech:?}");
        assert_eq!(tightened(&stage).len(), 8 + 8 + 9);
        let record = stage.bayhand(&["record"]);
        assert!(record.out.contains("reached 17.5 N·m"), "{}", record.out);
    }
}

/// Fifty times the key of the first bolt, and then Enter: one bolt is done.
#[test]
fn a_key_held_down_does_one_place() {
    for (speech, columns) in MANNERS {
        let stage = stage();
        let mut seat = sit(&stage, speech, columns);
        begin(&mut seat);
        seat.reads("[1] 1 is done");
        let key = if seat.is_plain() { "1\r" } else { "1" };
        seat.types(&key.repeat(50));
        seat.sees("[5] 5 is done");
        seat.types(&"\r".repeat(50));
        seat.types(if seat.is_plain() { "x\r" } else { "x" });
        seat.sees("`x` is not asked for here.");
        assert_eq!(tightened(&stage), [(0, "1".to_owned())], "{speech:?}");
    }
}

/// Nobody begins a stage with the key of a place.
#[test]
fn the_next_stage_has_its_own_key() {
    let stage = stage();
    let mut seat = sit(&stage, Speech::Colour, 80);
    begin(&mut seat);
    places(&mut seat, &CROSS);
    seat.reads("Next stage: half.");
    let events = stage.kinds().len();
    seat.types("88811155");
    seat.sees("`5` is not asked for here.");
    assert_eq!(stage.kinds().len(), events);
    seat.key("", "b");
    places(&mut seat, &["1"]);
}

/// Killed in the middle of a stage: nothing acknowledged is lost, and the brief names the place that is next.
#[test]
fn killed_in_the_middle_of_a_stage_it_comes_back_to_the_exact_place() {
    for (speech, columns) in MANNERS {
        let stage = stage();
        let mut seat = sit(&stage, speech, columns);
        begin(&mut seat);
        places(&mut seat, &CROSS);
        seat.key("Next stage: half.", "b");
        places(&mut seat, &["1", "5", "3"]);
        seat.reads("[7] 7 is done");
        let kept = stage.journal_lines();
        seat.pty.kill();
        assert_eq!(stage.journal_lines(), kept);
        let status = stage.bayhand(&["status"]);
        let told = "Stage half: 1, 3, 5 done; 2, 4, 6, 8 to do; 7 now.";
        assert!(status.out.contains(told), "{}", status.out);
        let mut seat = sit(&stage, speech, columns);
        seat.line("How do things stand (loose, hanging, open, live)?", "as it was");
        seat.reads("Fasteners: bolts of the flange: next is 7, stage half");
        seat.key("Read it?", "y");
        places(&mut seat, &["7", "2"]);
        seat.reads("[6] 6 is done");
        assert_eq!(stage.journal_lines()[..kept.len()], kept);
        let half: Vec<String> = tightened(&stage).into_iter().skip(8).map(|(_, place)| place).collect();
        assert_eq!(half, ["1", "5", "3", "7", "2"]);
    }
}

/// At 40 columns the grid goes on below; each cell has its own word.
#[test]
fn the_grid_fits_40_columns_and_needs_no_colour() {
    let stage = stage();
    let mut seat = sit(&stage, Speech::NoColour, 40);
    begin(&mut seat);
    places(&mut seat, &["1", "5"]);
    seat.key("[3] 3 is done", "u");
    seat.line("Why can it not be done?", "the bolt is missing");
    seat.reads("Last: 3, stage by hand (bolts of the flange) left out; deviation 1 recorded");
    let rows = seat.rows_since();
    for row in [
        "        1     2     3     4     5",
        "by hand done  -     dev 1 -     done",
        "half    -     -     dev 1 -     -",
        "        6     7     8",
        "by hand -     now   -",
    ] {
        assert!(rows.lines().any(|line| line.trim_end() == row), "{row}\n{rows}");
    }
    assert!(rows.contains("now: this one"), "{rows}");
    assert!(rows.lines().all(|row| row.chars().count() <= 40));
}

/// For a reader of the screen the grid is told.
#[test]
fn linear_output_tells_the_grid_in_sentences() {
    let stage = stage();
    let mut seat = sit(&stage, Speech::Plain, 80);
    begin(&mut seat);
    places(&mut seat, &["1", "5"]);
    seat.reads("Stage by hand: 1, 5 done; 2, 4, 6 to 8 to do; 3 now.");
    seat.reads("Stage half: all to do.");
}

#[test]
fn a_bolt_loosened_again_and_a_figure_corrected() {
    let stage = stage();
    let mut seat = sit(&stage, Speech::Colour, 80);
    begin(&mut seat);
    places(&mut seat, &["1", "5"]);
    seat.key("[3] 3 is done", "o");
    seat.key("[f] a fastener was loosened again", "f");
    seat.line("Which place was loosened again (its name, or `all`)?", "5");
    seat.line("Why was it loosened?", "its washer was missing");
    seat.key("5 loosened again", "5");
    places(&mut seat, &["3", "7", "2", "6", "4", "8"]);
    seat.key("Next stage: half.", "b");
    places(&mut seat, &CROSS);
    seat.key("Next stage: full.", "b");
    seat.line("1, what was reached, in N·m:", "21");
    seat.line("5, what was reached, in N·m:", "");
    seat.key("[c] correct an earlier reading or entry", "c");
    seat.item("Which entry was wrong", 0);
    seat.line("What was it really?", "20");
    seat.line("What was wrong with the entry?", "misread");
    seat.line("5, what was reached, in N·m:", "");
    seat.key("[j] this fastener cannot be done", "j");
    seat.line("Why can it not be done?", "the head is round");
    seat.reads("3, what was reached, in N·m:");
    let last = stage.events().into_iter().rev().take(2).collect::<Vec<_>>();
    assert_eq!(last[0]["fastening"]["left_out"]["reason"], "the head is round");
    assert_eq!(last[1]["fastening"]["corrected"]["reached"]["text"], "20");
}

/// The same from a file of answers.
#[test]
fn answers_from_a_file() {
    let stage = stage();
    let mut answers = String::from(
        "format = 1\nclock = \"2026-11-21T18:30:00+01:00\"\nanswers = [\n\
{ at = \"lead\", enter = \"Robin Vale\" },\n{ at = \"odometer\", enter = \"187400 km\" },\n\
{ at = \"flange_torque\", enter = \"20 N·m\", source = \"page 7\" },\n{ at = \"scope\", do = \"true\" },\n{ at = \"bolts\", enter = \"2\" },\n",
    );
    for line in [
        "{ at = \"flange by hand 1\", do = \"done\" }",
        "{ at = \"flange by hand 2\", do = \"done\" }",
        "{ at = \"flange stage half\", do = \"loosened\", group = \"flange\", position = \"2\", reason = \"washer\" }",
        "{ at = \"flange by hand 2\", do = \"done\" }",
        "{ at = \"flange stage half\", do = \"stage set\" }",
        "{ at = \"flange half 1\", do = \"done\" }",
        "{ at = \"flange half 2\", do = \"left out\", reason = \"the head is round\" }",
        "{ at = \"flange stage full\", do = \"stage set\" }",
        "{ at = \"flange full 1\", enter = \"25 N·m\" }",
        "{ at = \"flange full 1\", do = \"again\", reason = \"loosened a little\" }",
        "{ at = \"flange full 1\", enter = \"25 N·m\" }",
        "{ at = \"flange full 1\", do = \"correct\", group = \"flange\", stage = \"full\", position = \"1\", enter = \"20 N·m\", reason = \"misread\" }",
        "{ at = \"1.3\", do = \"done\" }",
        "{ at = \"deviation 1\", do = \"dispose\", disposition = \"repair\", reason = \"new bolt ordered\" }",
        "{ at = \"close\", do = \"close\" }",
    ] {
        answers.push_str(line);
        answers.push_str(",\n");
    }
    answers.push_str("]\n");
    stage.file("answers.toml", &answers);
    let ended = stage.bayhand(&["run", "flange.md", "--answers", "answers.toml"]);
    assert_eq!(ended.code, Some(0), "{}\n{}", ended.out, ended.err);
    assert!(ended.out.contains("25 N·m: fail, 3 N·m above the maximum"), "{}", ended.out);
    let record = stage.bayhand(&["record"]);
    assert!(record.out.contains("loosened again: 2: washer"), "{}", record.out);
}

#[test]
fn the_overview_says_what_will_be_tightened() {
    let stage = stage();
    let shown = words_of(&stage.bayhand(&["show", "flange.md"]).out);
    for words in [
        "Fasteners: bolts of the flange (how many: bolts of the flange), crosswise.",
        "half: 0.5 * [torque of the flange bolts], plus or minus 10 %; full: torque of the flange bolts, plus or minus 10 %, what was reached is read and judged",
    ] {
        assert!(shown.contains(words), "{shown}");
    }
}

/// With the sheet, limits and torques have this vehicle's figures and say where they were found.
#[test]
fn the_overview_shows_the_figures_of_a_vehicle() {
    let stage = Stage::bare();
    let tables = "[vehicle.tight]\nwhat = \"torque of the bolts\"\nunit = \"N·m\"\nfind = \"manual\"\n\
[holds.shut]\nwhat = \"the air is shut\"\nconfirm = [\"shut\"]\nrelease = \"lead\"\n\
[readings.gap]\nwhat = \"gap\"\nunit = \"mm\"\nmax = '1 mm + 2 mm'\nplausible = [\"0 mm\", \"9 mm\"]\n\
never_above = \"5 mm\"\nopens = \"shut\"\nfails = \"Stop.\"\n\
[fasteners.ring]\nwhat = \"ring\"\ncount = 4\nstages = [{ what = \"half\", torque = 'tight / 2', within = \"4 %\" }]\n";
    let body = "1. Release [shut].\n2. Read [gap].\n3. Tighten the [ring] to [tight].\n";
    stage.file("ring.md", &crate::run::drive::titled("Ring", tables, body));
    stage.file(
        "sheet.toml",
        "format = 1\nvehicle = \"green\"\nidentification = \"EXAMPLE-1\"\nodometer_unit = \"km\"\n\
[values.tight]\nvalue = \"24 N·m\"\nsource = \"manual (invented), page 7\"\n",
    );
    let plain = words_of(&stage.bayhand(&["show", "ring.md"]).out);
    for words in [
        "gap: in mm; at most 1 mm + 2 mm; likely from 0 mm to 9 mm; never above 5 mm: beyond it the work stops",
        "if not good: Stop",
        "half: [torque of the bolts] / 2, plus or minus 4 %",
        "torque of the bolts (find it in: manual)",
    ] {
        assert!(plain.contains(words), "{words}: {plain}");
    }
    let figured = words_of(&stage.bayhand(&["show", "ring.md", "--vehicle", "sheet.toml"]).out);
    for words in [
        "torque of the bolts: 24 N·m (manual (invented), page 7)",
        "half: 12 N·m ([torque of the bolts] / 2)",
    ] {
        assert!(figured.contains(words), "{words}: {figured}");
    }
}

/// A place that is not good is told at once, also where the procedure has its own way for it and asks nothing; a value
/// that nobody has judged yet is not called failed; where nothing is set, no key says so.
#[test]
fn what_a_place_reached_is_told_as_it_stands() {
    let stage = Stage::bare();
    let tables = "[fasteners.ring]\nwhat = \"ring\"\ncount = 3\nstages = [\n\
{ what = \"range\", unit = \"N·m\", min = 20, max = 30, read = true },\n\
{ what = \"end\", unit = \"N·m\", nominal = 24, read = true },\n]\n\
[conditions.bad]\nfailed = \"ring\"\n";
    stage.file(
        "ring.md",
        &crate::run::drive::titled(
            "Tighten the demo flange",
            tables,
            "1. Tighten it: [ring].\n2. [bad] Replace it.\n3. Wipe it.\n",
        ),
    );
    let procedure = stage.path("ring.md").to_string_lossy().into_owned();
    let mut seat = Seat::take(&stage, Speech::NoColour, 80, &["run", &procedure]);
    seat.line("Name of the lead (does the work):", "Robin Vale");
    seat.line("Odometer, in km or with its unit:", "187400 km");
    seat.key("Is it for this vehicle?", "y");
    seat.line("1, what was reached, in N·m:", "40");
    seat.reads("1, stage range (ring): 40 N·m: fail, 10 N·m above the maximum");
    seat.line("2, what was reached, in N·m:", "25");
    seat.line("3, what was reached, in N·m:", "25");
    seat.key("[b] begin this stage", "b");
    seat.line("1, what was reached, in N·m:", "24");
    seat.reads("Robin Vale: is it good?");
    let rows = seat.rows_since();
    assert!(rows.lines().any(|row| row.trim_end() == "end   now  -    -"), "{rows}");
}
