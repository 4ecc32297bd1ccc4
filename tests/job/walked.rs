//! A job walked with the program: what is done, what waits, what is handed on.

use crate::session::stage::{Stage, words_of};

const HEAD: &str = "+++\nformat = 1\nrevision = \"A\"\ndate = 2026-11-25\nauthor = \"a tester\"\nscope = \"any\"\nlevel_of_use = \"continuous\"\n\
tools = \"none\"\nmaterials = \"none\"\nparts = \"none\"\nrequired = \"none\"\nclose_up = \"none\"\nhazards = \"none\"\n[roles]\nlead = \"works\"\n";

const SHEET: &str = "format = 1\nvehicle = \"an invented one\"\nidentification = \"EXAMPLE\"\nodometer_unit = \"km\"\n\
[values.rest]\nvalue = \"not given\"\nsource = \"looked for in the manual\"\n";

fn stage() -> Stage {
    let stage = Stage::bare();
    let job = "+++\nformat = 1\njob = \"it leaks\"\n[procedures.fill]\nafter = [\"drain\"]\naway = \"1 d\"\ntwo = \"1 h\"\n\
[procedures.paint]\nafter = [\"drain\"]\nalone = \"20 min\"\n+++\n# Leak\n\n1. [Drain it](drain.md)\n2. [Paint it](paint.md)\n3. [Fill it](fill.md)\n";
    stage.file("leak.md", job);
    let reading = "[readings.drained]\nwhat = \"drained\"\nunit = \"L\"\ninformation_only = true\nwhy = \"the filling needs it\"\n+++\n# Drain\n\n1. Drain it: [drained].\n";
    stage.file("drain.md", &format!("{HEAD}{reading}"));
    stage.file("paint.md", &format!("{HEAD}+++\n# Paint\n\n1. Paint it.\n"));
    let filled = "[vehicle.drained]\nwhat = \"what was drained\"\nunit = \"L\"\nfind = \"the record of the draining\"\n\
handed_on = \"drained in drain\"\n[vehicle.rest]\nwhat = \"the rest after it\"\nunit = \"min\"\nfind = \"manual\"\nusual = \"10 min\"\n\
usual_why = \"long enough to settle (common practice)\"\n[readings.filled]\nwhat = \"filled\"\nunit = \"L\"\nmax = 'drained'\nfails = \"Drain.\"\n\
[values.later]\nwhat = \"in all\"\nunit = \"min\"\nformula = 'rest + 5 min'\ninformation_only = true\n+++\n# Fill\n\n1. Fill in at most [drained]: [filled].\n2. Wait for it: [later].\n";
    stage.file("fill.md", &format!("{HEAD}{filled}"));
    stage.file("sheet.toml", SHEET);
    let answers = |name: &str, clock: &str, lines: &str| {
        let begin = "{ at = \"lead\", enter = \"Robin Vale\" },\n";
        let text = format!(
            "format = 1\nclock = \"{clock}\"\nanswers = [\n{begin}{lines}{{ at = \"close\", do = \"close\" }},\n]\n"
        );
        stage.file(name, &text);
    };
    let scope = "{ at = \"scope\", do = \"true\" },\n";
    answers(
        "a-drain.toml",
        "2026-11-21T09:10:00+00:00",
        &format!("{scope}{{ at = \"drained\", enter = \"3.9 L\" }},\n"),
    );
    answers(
        "a-paint.toml",
        "2026-11-21T12:10:00+00:00",
        &format!("{scope}{{ at = \"1.1\", do = \"done\" }},\n"),
    );
    answers(
        "a-fill.toml",
        "2026-11-23T09:10:00+00:00",
        &format!(
            "{{ at = \"rest\", enter = \"usual\", source = \"RV\" }},\n{scope}{{ at = \"filled\", enter = \"3.5 L\" }},\n{{ at = \"1.2\", do = \"done\" }},\n"
        ),
    );
    let runs = |names: &[&str]| {
        let one = |name: &&str| format!("[[runs]]\nprocedure = \"{name}\"\nanswers = \"a-{name}.toml\"\n");
        format!("format = 1\n{}", names.iter().map(one).collect::<String>())
    };
    stage.file("whole.toml", &runs(&["drain", "paint", "fill"]));
    stage.file("early.toml", &runs(&["fill"]));
    stage
}

#[test]
fn from_the_first_run_to_the_last_with_what_is_handed_on() {
    let stage = stage();
    let checked = stage.bayhand(&["check", "leak.md", "drain.md", "paint.md", "fill.md", "sheet.toml"]);
    assert_eq!(checked.code, Some(0), "{}{}", checked.out, checked.err);
    let before = words_of(&stage.bayhand(&["status", "leak.md"]).out);
    assert!(
        before.contains("1 ready Drain it 2 waits Paint it (after 1) 3 waits Fill it (after 1)"),
        "{before}"
    );
    let ended = stage.bayhand(&["run", "leak.md", "--vehicle", "sheet.toml", "--answers", "whole.toml"]);
    assert_eq!(ended.code, Some(0), "{}\n{}", ended.out, ended.err);
    let said = words_of(&stage.bayhand(&["status", "leak.md"]).out);
    assert!(said.contains("1 done Drain it (2026-11-21 09:1") && said.contains("3 done Fill it ("), "{said}");
    assert!(said.contains("in 3 runs"), "{said}");
    let record = words_of(&stage.bayhand(&["record", "2026-11-23-fill"]).out);
    for words in [
        "3.9 L",
        "`drained` of run 2026-11-21-drain, entry",
        "common practice: long enough to settle (common practice); accepted by RV",
    ] {
        assert!(record.contains(words), "{words}\n{record}");
    }
}

#[test]
fn nothing_is_begun_before_what_it_waits_for() {
    let stage = stage();
    let ended = stage.bayhand(&["run", "leak.md", "--vehicle", "sheet.toml", "--answers", "early.toml"]);
    assert_eq!(ended.code, Some(1));
    assert!(ended.err.contains("`fill` cannot be done yet"), "{}", ended.err);
}

#[cfg(unix)]
#[test]
fn at_a_terminal_what_can_be_done_now_is_offered() {
    use crate::session::seat::{Seat, Speech};
    let stage = stage();
    for (more, offered) in [(&[][..], true), (&["--within", "10 min", "--alone"][..], false)] {
        let job = stage.path("leak.md").to_string_lossy().into_owned();
        let mut seat = Seat::take(&stage, Speech::NoColour, 80, &[&["run", &job], more].concat());
        if offered {
            seat.item("What is done now?", 0);
            seat.line("Name of the lead", "Robin Vale");
            seat.key("Is it for this vehicle?", "y");
            seat.line("in L:", "3.9");
            seat.key("[e] end", "e");
            assert_eq!(seat.leaves(), 0);
        } else {
            // Painting takes twenty minutes, filling has to wait.
            seat.sees("Nothing of this job can be begun now");
        }
    }
}

/// Materials are summed over the procedures, hours alone and for two over what the job says.
#[test]
fn the_kit_of_a_job_is_summed() {
    let stage = stage();
    for (name, amount) in [("drain.md", "1 L"), ("fill.md", "2 qt")] {
        let text = stage.text(name).replace("materials = \"none\"\n", "");
        let material = format!("[materials.oil]\nwhat = \"fresh oil\"\namount = '{amount}'\n[roles]");
        stage.file(name, &text.replacen("[roles]", &material, 1));
    }
    let said = words_of(&stage.bayhand(&["kit", "leak.md", "--vehicle", "sheet.toml"]).out);
    // A US quart is 0.946352946 L: NIST SP 811, appendix B.8.
    assert!(said.contains("fresh oil, 2.8927 L (1, 3)"), "{said}");
    assert!(said.contains("alone: 0 h 20 min - for two: 1 h 00 min - not said of: 1"), "{said}");
    assert!(said.contains("before Fill it: 1 d"), "{said}");
}

/// What the procedures of a job need is asked for once; what is handed on is not.
#[cfg(unix)]
#[test]
fn a_sheet_is_asked_for_value_by_value() {
    use crate::session::seat::{Seat, Speech};
    for speech in [Speech::NoColour, Speech::Plain] {
        let stage = stage();
        let (job, sheet) = (stage.path("leak.md"), stage.path("own.toml"));
        let (job, sheet) = (job.to_string_lossy().into_owned(), sheet.to_string_lossy().into_owned());
        let mut seat = Seat::take(&stage, speech, 80, &["vehicle", "new", &sheet, &job]);
        seat.line("What its people call the vehicle:", "the \"green\" one");
        seat.line("What identifies it", "");
        seat.line("What its odometer counts", "");
        seat.line("1 of 1. the rest after it, in min (find it in: manual):", "5 bar");
        seat.line("Not taken:", "7");
        seat.line("Where was it found", "page 3-1");
        seat.sees("1 values with their sources, 0 not given, 0 not asked yet.");
        assert_eq!(seat.leaves(), 0);
        let written = stage.text("own.toml");
        assert!(written.contains("[values.rest]\nvalue = \"7 min\"\nsource = \"page 3-1\""), "{written}");
        assert_eq!(stage.bayhand(&["check", "leak.md", "own.toml"]).code, Some(0));
        assert_eq!(
            stage.bayhand(&["vehicle", "new", "own.toml", "leak.md"]).code,
            Some(1),
            "nothing is overwritten"
        );
    }
}
