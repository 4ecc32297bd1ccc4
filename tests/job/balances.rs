//! Balances: what belongs together over several runs is summed, with where each figure is from; what is not there is open.

use std::fmt::Write;

use crate::session::stage::{Stage, words_of};

const HEAD: &str = "+++\nformat = 1\nrevision = \"A\"\ndate = 2026-11-25\nauthor = \"a tester\"\nscope = \"any\"\nlevel_of_use = \"continuous\"\n\
tools = \"none\"\nmaterials = \"none\"\nparts = \"none\"\nrequired = \"none\"\nclose_up = \"none\"\nhazards = \"none\"\n[roles]\nlead = \"works\"\n";

const JOB: &str = "+++\nformat = 1\njob = \"the oil is old\"\n[balances.oil]\nwhat = \"oil, in less out\"\nunit = \"L\"\n\
plus = [\"filled in fill\", \"rest in fill\"]\nminus = [\"drained in drain\", \"spilled in drain\"]\n\
[balances.bags]\nwhat = \"bags\"\nlists = [\"bags in drain\"]\n+++\n# Oil\n\n1. [Drain it](drain.md)\n2. [Fill it](fill.md)\n";

const DRAIN: &str = "[repeats.cans]\nwhat = \"both cans\"\neach = [\"one\", \"two\"]\n\
[readings.drained]\nwhat = \"came out\"\nunit = \"qt\"\ninformation_only = true\n\
[readings.spilled]\nwhat = \"on the floor\"\nunit = \"L\"\ninformation_only = true\ninstead = { \"nothing\" = \"information only\" }\n\
[readings.bags]\nwhat = \"bags and what is in them\"\nkind = \"list\"\ninformation_only = true\n+++\n# Drain\n\n\
1. [cans] Drain the [cans]: [drained].\n2. Look: [spilled], [bags].\n";

const FILL: &str = "[vehicle.rest]\nwhat = \"what the lines hold\"\nunit = \"L\"\nfind = \"manual\"\n\
[readings.filled]\nwhat = \"went in\"\nunit = \"L\"\ninformation_only = true\n+++\n# Fill\n\n1. Fill it, the lines hold [rest]: [filled].\n";

const SHEET: &str = "format = 1\nvehicle = \"an invented one\"\nidentification = \"EXAMPLE\"\nodometer_unit = \"km\"\n\
[values.rest]\nvalue = \"0.2 L\"\nsource = \"manual (invented)\"\n[values.hour_rate]\nvalue = \"30 money/h\"\nsource = \"agreed (invented)\"\n";

/// A job of two procedures with sums over both, and the files that answer it.
pub fn stage() -> Stage {
    let stage = Stage::bare();
    stage.file("oil.md", JOB);
    stage.file("drain.md", &format!("{HEAD}{DRAIN}"));
    stage.file("fill.md", &format!("{HEAD}{FILL}"));
    stage.file("sheet.toml", SHEET);
    let answers = |name: &str, clock: &str, given: &[(&str, &str)], closes: bool| {
        let mut text = format!("format = 1\nclock = \"{clock}\"\npace = \"10 min\"\nanswers = [\n");
        let mut say = |at: &str, how: &str, what: &str| {
            writeln!(text, "{{ at = \"{at}\", {how} = \"{what}\" }},").expect("a text");
        };
        say("lead", "enter", "Robin Vale");
        say("scope", "do", "true");
        for (at, what) in given {
            say(at, "enter", what);
        }
        if closes {
            say("close", "do", "close");
        }
        stage.file(name, &format!("{text}]\n"));
    };
    let drained =
        [("drained", "2 qt"), ("drained", "1 L"), ("spilled", "nothing"), ("bags", "A: four bolts, B: plug")];
    answers("drain.toml", "2026-11-21T09:00:00+00:00", &drained, true);
    answers("fill.toml", "2026-11-22T09:00:00+00:00", &[("filled", "2.7 L")], true);
    let runs = |names: &[&str]| {
        let one = |name: &&str| format!("[[runs]]\nprocedure = \"{name}\"\nanswers = \"{name}.toml\"\n");
        format!("format = 1\n{}", names.iter().map(one).collect::<String>())
    };
    stage.file("half.toml", &runs(&["drain"]));
    stage.file("whole.toml", &runs(&["drain", "fill"]));
    stage
}

fn walked(stage: &Stage, answers: &str) -> String {
    let checked = stage.bayhand(&["check", "oil.md", "sheet.toml"]);
    assert_eq!(checked.code, Some(0), "{}{}", checked.out, checked.err);
    let ended = stage.bayhand(&["run", "oil.md", "--vehicle", "sheet.toml", "--answers", answers]);
    assert_eq!(ended.code, Some(0), "{}\n{}", ended.out, ended.err);
    words_of(&stage.bayhand(&["status", "oil.md"]).out).replace('\u{a0}', " ")
}

/// 2 US quarts are 1.892705892 L: NIST SP 811, appendix B.8.
#[test]
fn figures_of_several_runs_are_summed_each_with_its_entry() {
    let said = walked(&stage(), "whole.toml");
    for words in [
        "+ 2.7 L went in (2026-11-22-fill, entry 4, 2026-11-22 09:30)",
        "+ 0.2 L what the lines hold (2026-11-22-fill, entry 1, 2026-11-22 09:00)",
        "- 1.8927 L came out, pass 1 of 2 (one) (2026-11-21-drain, entry 4, 2026-11-21 09:30)",
        "- 1 L came out, pass 2 of 2 (two) (2026-11-21-drain, entry 6,",
        "- nothing on the floor (2026-11-21-drain, entry 8,",
        "= 0.007294108 L 2.9 L less 2.8927 L; NOT WHOLE: 1 without a number",
        "A: four bolts, B: plug bags and what is in them (2026-11-21-drain, entry 9,",
    ] {
        assert!(said.contains(words), "{words}\n{said}");
    }
}

/// What is not there yet is open, and a sum without it says so.
#[test]
fn what_is_open_is_never_nothing() {
    let said = walked(&stage(), "half.toml");
    for words in [
        "+ open Fill it (filled in fill): not begun",
        "+ open Fill it (rest in fill): not begun",
        "= -2.8927 L 0 L less 2.8927 L; NOT WHOLE: 2 open, 1 without a number",
    ] {
        assert!(said.contains(words), "{words}\n{said}");
    }
}

/// The hours are those between the entries, and are worth what the sheet says an hour is.
#[test]
fn hours_are_valued_by_the_sheet() {
    let said = walked(&stage(), "whole.toml");
    assert!(said.contains("Hours at it: 1 h 50 min in 2 runs; at 30 money/h worth 55 money"), "{said}");
}

/// A run that cannot be read is not left out without a word.
#[test]
fn a_damaged_run_is_told() {
    let stage = stage();
    walked(&stage, "whole.toml");
    let run = stage.data().join("runs/2026-11-21-drain");
    for (file, why) in
        [("procedure.md", "is not what the run was started with"), ("journal.jsonl", "cannot be read")]
    {
        let kept = std::fs::read_to_string(run.join(file)).expect("a text");
        std::fs::write(run.join(file), kept.replace("drained", "trained")).expect("a file of the test");
        let said = words_of(&stage.bayhand(&["status", "oil.md"]).out);
        assert!(said.contains("run 2026-11-21-drain may belong to this job") && said.contains(why), "{said}");
        std::fs::write(run.join(file), kept).expect("a file of the test");
    }
}
