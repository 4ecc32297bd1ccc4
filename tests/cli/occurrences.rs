//! Small procedures in which a run takes the right way, and status and record say the same of it: passes side by side and
//! passes that replace each other, branches that are not taken, rows that are due, hazards over what does not apply.

use serde_json::Value;

use crate::run::drive::titled;
use crate::session::stage::{Stage, words_of};

const CLOCK: &str = "format = 1\nclock = \"2026-11-29T08:00:00+00:00\"\npace = \"30 s\"\nanswers = [\n\
{ at = \"lead\", enter = \"Robin Vale\" },\n{ at = \"odometer\", enter = \"0 km\" },\n{ at = \"scope\", do = \"true\" },\n";

/// A run of a procedure from its answers, and all that was said on the way.
fn walked(tables: &str, body: &str, answers: &[&str]) -> (Stage, String) {
    let stage = Stage::bare();
    stage.file("trial.md", &titled("Trial", tables, body));
    stage.file("trial.toml", &format!("{CLOCK}{}\n]\n", answers.join(",\n")));
    let ended = stage.bayhand(&["run", "trial.md", "--answers", "trial.toml"]);
    let said = words_of(&format!("{}\n{}", ended.out, ended.err));
    (stage, said)
}

fn record(stage: &Stage) -> Value {
    serde_json::from_str(&stage.bayhand(&["record", "--json"]).out).expect("a record")
}

fn status(stage: &Stage) -> Value {
    serde_json::from_str(&stage.bayhand(&["status", "--json"]).out).expect("a status")
}

const WAYS: &str = "[readings.way]\nwhat = \"way of measuring\"\nchoices = [\"gauge\", \"tester\"]\ninformation_only = true\n\
[readings.p]\nwhat = \"pressure on the gauge\"\nunit = \"psi\"\ninformation_only = true\n\
[readings.q]\nwhat = \"pressure on the tester\"\nunit = \"psi\"\ninformation_only = true\n\
[conditions]\ntester = { if = 'way == \"tester\"' }\ngauge = { if = 'way == \"gauge\"' }\ntoo_high = { failed = \"v\" }\n";
const TO_MEASURE: &str = "1. See [way].\n2. [gauge] Read [p].\n3. [tester] Read [q].\n4. Work out [v].\n\
5. [too_high] Fit another pump.\n";

/// A formula that leaves a branch untaken is worked out all the same: on screen, in status, for conditions, in the record.
#[test]
fn a_value_with_an_untaken_branch_is_judged() {
    let value = "[values.v]\nwhat = \"pressure that counts\"\nformula = 'if tester then q else if gauge then p else 0 psi'\n\
unit = \"psi\"\nmax = \"60 psi\"\n";
    let answers = |pressure: &str, rest: &[&str]| {
        let read = format!("{{ at = \"p\", enter = \"{pressure}\" }}");
        let mut all =
            vec!["{ at = \"way\", enter = \"gauge\" }", read.as_str(), "{ at = \"1.4\", do = \"done\" }"];
        all.extend(rest);
        walked(&format!("{WAYS}{value}"), TO_MEASURE, &all)
    };
    let close = ["{ at = \"close\", do = \"close\" }"];
    let (stage, said) = answers("20 psi", &close);
    assert!(said.contains("pass, 40 psi below the maximum"), "{said}");
    let told = status(&stage);
    assert_eq!(
        (&told["steps"][3]["status"], &told["steps"][4]["status"]),
        (&"done".into(), &"not applicable".into())
    );
    assert!(told["steps"][3]["results"][0]["verdict"].as_str().unwrap().starts_with("pass"), "{told}");
    let record = record(&stage);
    assert_eq!(record["result"], "completed without deviation");
    assert_eq!(record["values"][0]["result"]["judged"]["verdict"], "pass", "{}", record["values"]);

    // What fails goes the procedure's own way, and status and record say so.
    let (stage, said) = answers("70 psi", &["{ at = \"1.5\", do = \"done\" }", close[0]]);
    assert!(said.contains("fail, 10 psi above the maximum of 60 psi"), "{said}");
    assert!(status(&stage)["steps"][3]["results"][0]["verdict"].as_str().unwrap().starts_with("fail"));
    let record = self::record(&stage);
    assert_eq!(record["values"][0]["result"]["judged"]["verdict"], "fail", "{}", record["values"]);
    assert_eq!(record["result"], "completed; 1 computed value failed");
}

/// A limit whose formula leaves a branch untaken is a limit like any other.
#[test]
fn a_limit_with_an_untaken_branch_is_a_limit() {
    let reading = "[readings.v]\nwhat = \"pressure that counts\"\nunit = \"psi\"\nmax = 'if tester then q else 60 psi'\n";
    let answers = [
        "{ at = \"way\", enter = \"gauge\" }",
        "{ at = \"p\", enter = \"20 psi\" }",
        "{ at = \"v\", enter = \"20 psi\" }",
        "{ at = \"close\", do = \"close\" }",
    ];
    let (stage, said) = walked(&format!("{WAYS}{reading}"), TO_MEASURE, &answers);
    assert!(said.contains("pass, 40 psi below the maximum"), "{said}");
    assert_eq!(status(&stage)["steps"][4]["status"], "not applicable");
}

const STUDS: &str = "[readings.gap]\nwhat = \"gap at the stud\"\nunit = \"mm\"\nmax = \"0.04 mm\"\n\
[readings.done]\nwhat = \"what was done\"\nkind = \"text\"\n[conditions.bad]\nfailed = \"gap\"\n";

/// Passes over a list stand side by side: one bad stud of three opens the step after them.
#[test]
fn one_bad_of_three_opens_the_step_after_them() {
    let tables = format!("{STUDS}[repeats.stud]\nwhat = \"studs\"\neach = [\"1\", \"2\", \"3\"]\n");
    let body = "1. [stud] Measure at stud [stud]: [gap].\n2. [bad] Take it apart: [done].\n";
    for (bad, gaps) in
        [(true, ["9 mm", "0.01 mm", "0.01 mm"]), (true, ["0 mm", "0 mm", "1 mm"]), (false, ["0 mm"; 3])]
    {
        let mut answers: Vec<String> = Vec::new();
        for gap in gaps {
            answers.push(format!("{{ at = \"gap\", enter = \"{gap}\" }}"));
            // A pass in which nothing fails counts by itself.
            if ["9 mm", "1 mm"].contains(&gap) {
                answers.push("{ at = \"stud\", do = \"counts\" }".to_owned());
            }
        }
        let answers: Vec<&str> = answers.iter().map(String::as_str).collect();
        let (stage, _) = walked(&tables, body, &answers);
        let asks = status(&stage)["asks"].clone();
        assert_eq!(asks, if bad { "done" } else { "close" }, "{gaps:?}");
    }
}

/// Passes until something holds replace each other: the last one counts.
#[test]
fn of_passes_until_good_the_last_counts() {
    let tables = format!("{STUDS}[repeats.again]\nwhat = \"measuring\"\nuntil = 'gap <= 0.04 mm'\n");
    let body = "1. [again] Measure: [gap].\n2. [bad] Take it apart: [done].\n";
    let answers = [
        "{ at = \"gap\", enter = \"9 mm\" }",
        "{ at = \"again\", do = \"counts\" }",
        "{ at = \"gap\", enter = \"0.01 mm\" }",
        "{ at = \"close\", do = \"close\" }",
    ];
    let (stage, _) = walked(&tables, body, &answers);
    let told = status(&stage);
    let steps: Vec<(&str, &str)> = told["steps"]
        .as_array()
        .unwrap()
        .iter()
        .map(|step| (step["pass"].as_str().unwrap_or_default(), step["status"].as_str().unwrap()))
        .collect();
    assert_eq!(steps, [("pass 1", "done"), ("pass 2", "done"), ("", "not applicable")]);
    assert_eq!(record(&stage)["result"], "completed; 1 reading failed");
}

/// A DANGER in a paragraph is read before the first thing that is done after it, also where the step that it stands with
/// does not apply; so is one over a step that is not the first.
#[test]
fn a_hazard_is_not_lost_with_a_step_that_does_not_apply() {
    let hazard = "[hazards.acid]\nsignal = \"DANGER\"\nhazard = \"acid in the tray\"\nconsequence = \"blinds\"\navoid = \"wear goggles\"\n\
[readings.look]\nwhat = \"the look\"\nchoices = [\"good\", \"bad\"]\ninformation_only = true\n[conditions.bad]\nif = 'look == \"bad\"'\n";
    let body = "## One\n\n1. See [look].\n\n## Two\n\nThere is [acid] in the tray.\n\n1. [bad] Neutralise it.\n2. Empty it.\n";
    let answers = ["{ at = \"look\", enter = \"good\" }"];
    let (stage, _) = walked(hazard, body, &answers);
    assert_eq!(status(&stage)["asks"], "acid");
}

/// Rows are due from the beginning of the first; one that is begun early stands for its time.
#[test]
fn rows_are_due_from_the_beginning_of_the_first() {
    let log = "[readings.v]\nwhat = \"voltage\"\nunit = \"V\"\ninformation_only = true\n[readings.adj]\nwhat = \"adjusted\"\n\
choices = [\"no\", \"yes\"]\ninformation_only = true\n[repeats.log]\nwhat = \"log\"\nevery = \"10 min\"\nlate = \"1 min\"\ntimes = 3\n";
    let body = "1. [log] Take a row:\n   1. Read [v].\n   2. See [adj].\n";
    let answers = [
        "{ at = \"v\", enter = \"24 V\" }",
        "{ at = \"adj\", enter = \"no\", after = \"5 min\" }",
        "{ at = \"log\", do = \"early\" }",
        "{ at = \"v\", enter = \"24 V\" }",
        "{ at = \"adj\", enter = \"no\" }",
        "{ at = \"log\", do = \"wait\" }",
        "{ at = \"v\", enter = \"24 V\", after = \"5 min\" }",
        "{ at = \"adj\", enter = \"no\" }",
        "{ at = \"close\", do = \"close\" }",
    ];
    let (stage, said) = walked(log, body, &answers);
    let rows = record(&stage)["logs"][0]["rows"].clone();
    let due: Vec<&str> =
        rows.as_array().unwrap().iter().map(|row| row["due"].as_str().unwrap_or("-")).collect();
    // The first row begins at 08:02.
    assert!(due[1].contains("08:12:00") && due[2].contains("08:22:00"), "{due:?}\n{said}");
    let late: Vec<&str> =
        rows.as_array().unwrap().iter().map(|row| row["late"].as_str().unwrap_or("-")).collect();
    assert_eq!(late, ["-", "-", "late by 5 min"], "{said}");
}

/// A correction of an entry of an earlier pass, and of a name.
#[test]
fn any_entry_of_any_pass_is_corrected() {
    let tables = format!("{STUDS}[repeats.stud]\nwhat = \"studs\"\neach = [\"left\", \"right\"]\n");
    let body = "1. [stud] Measure at stud [stud]: [gap].\n2. [bad] Take it apart: [done].\n3. Wipe.\n";
    let answers = [
        "{ at = \"gap\", enter = \"0.01 mm\" }",
        "{ at = \"gap\", enter = \"0.02 mm\" }",
        "{ at = \"1.3\", do = \"correct\", reading = \"gap\", pass = \"left\", enter = \"9 mm\", reason = \"misread\" }",
        "{ at = \"done\", do = \"correct\", role = \"lead\", enter = \"Robin Vane\", reason = \"misspelt\" }",
        "{ at = \"done\", enter = \"shimmed\" }",
        "{ at = \"1.3\", do = \"done\" }",
        "{ at = \"close\", do = \"close\" }",
    ];
    let (stage, said) = walked(&tables, body, &answers);
    let record = record(&stage);
    assert_eq!(record["result"], "completed; 1 reading failed", "{said}");
    assert!(record["people"].to_string().contains("Robin Vane"), "{}", record["people"]);
}

/// What a correction makes fail in an earlier pass is shown as it stands there, not as it is in the last one.
#[test]
fn what_fails_in_an_earlier_pass_is_shown_in_that_pass() {
    let tables = "[readings.gap]\nwhat = \"gap at the stud\"\nunit = \"mm\"\nmax = \"0.04 mm\"\n\
[repeats.stud]\nwhat = \"studs\"\neach = [\"left\", \"right\"]\n";
    let answers = [
        "{ at = \"gap\", enter = \"0.01 mm\" }",
        "{ at = \"gap\", enter = \"0.02 mm\" }",
        "{ at = \"1.2\", do = \"correct\", reading = \"gap\", pass = \"left\", enter = \"9 mm\", reason = \"misread\" }",
        "{ at = \"gap\", do = \"again\", reason = \"ground it\" }",
        "{ at = \"gap\", enter = \"0.03 mm\" }",
        "{ at = \"1.2\", do = \"done\" }",
        "{ at = \"close\", do = \"close\" }",
    ];
    let (stage, said) = walked(tables, "1. [stud] Measure at stud [stud]: [gap].\n2. Wipe.\n", &answers);
    let after = said.split_once("misread").expect("the correction").1;
    assert!(after.contains("1.1 Measure at stud left: 9 mm."), "{after}");
    assert!(after.contains("9 mm: fail, 8.96 mm above the maximum"), "{after}");
    assert!(after.contains("0.03 mm: pass") && !after.contains("0.02 mm: pass"), "{after}");
    assert_eq!(record(&stage)["readings"][0]["attempts"][1]["judged"]["verdict"], "pass");
}

/// A bolt that does not come to its torque is the procedure's own matter where it says so: its step opens, with no
/// deviation, and the record counts it. A vehicle with four good ones goes by.
#[test]
fn a_bad_fastener_opens_the_step_for_it() {
    let tables = "[fasteners.pan]\nwhat = \"bolts of the pan\"\npositions = [\"1\", \"2\"]\n\
stages = [{ what = \"full\", torque = '10 N·m', within = \"4 %\", read = true }]\n\
[readings.done]\nwhat = \"what was done\"\nkind = \"text\"\n[conditions.stripped]\nfailed = \"pan\"\n";
    let body = "1. Tighten the bolts: [pan].\n2. [stripped] Mend the thread: [done].\n";
    let reached =
        |place: &str, torque: &str| format!("{{ at = \"pan full {place}\", enter = \"{torque}\" }}");
    for (torques, is_bad) in
        [(["6 N·m", "10 N·m"], true), (["10 N·m", "12 N·m"], true), (["10 N·m"; 2], false)]
    {
        let mut answers = vec![reached("1", torques[0]), reached("2", torques[1])];
        if is_bad {
            answers.push("{ at = \"done\", enter = \"thread insert\" }".to_owned());
        }
        answers.push("{ at = \"close\", do = \"close\" }".to_owned());
        let answers: Vec<&str> = answers.iter().map(String::as_str).collect();
        let (stage, said) = walked(tables, body, &answers);
        let record = record(&stage);
        let result = if is_bad { "completed; 1 fastener failed" } else { "completed without deviation" };
        assert_eq!(record["result"], result, "{torques:?} {said}");
        let became = if is_bad { "failed" } else { "done" };
        assert_eq!(record["fasteners"][0]["state"], became, "{}", record["fasteners"]);
        let mended = if is_bad { "done" } else { "not applicable" };
        assert_eq!(status(&stage)["steps"][1]["status"], mended, "{torques:?}");
    }
}

/// Which pass does not count is told with the reason, and its step comes once more before what is answered next.
#[test]
fn a_pass_that_is_taken_back_in_a_file_shows_its_step_again() {
    let tables = "[readings.gap]\nwhat = \"gap at the stud\"\nunit = \"mm\"\nmax = \"0.04 mm\"\n\
[repeats.stud]\nwhat = \"studs\"\neach = [\"left\", \"right\"]\n";
    let body = "1. [stud] At stud [stud]:\n   1. Wipe it.\n   2. Measure [gap].\n2. Wipe your hands.\n";
    let pass = ["{ at = \"1.1.1\", do = \"done\" }", "{ at = \"gap\", enter = \"0.01 mm\" }"];
    let back = "{ at = \"1.1.1\", do = \"invalid\", reason = \"the lamp was out\" }";
    let rest = ["{ at = \"1.2\", do = \"done\" }", "{ at = \"close\", do = \"close\" }"];
    let answers: Vec<&str> = [&pass[..], &[back], &pass, &pass, &rest].concat();
    let (stage, said) = walked(tables, body, &answers);
    let told = "pass 1 done: studs (left) 1.1.1 Wipe it. the pass that ended last does not count, studs: the lamp was out \
1.1.1 Wipe it. -> done";
    assert!(said.contains(told), "{said}");
    assert!(
        said.contains("way: pass 1 kept, it does not count after all: studs. Reason: the lamp was out"),
        "{said}"
    );
    let record = record(&stage);
    assert_eq!(record["result"], "completed; 1 pass does not count");
    let passes = record["repeats"][0]["passes"].as_array().unwrap();
    let counts: Vec<bool> = passes.iter().map(|pass| pass["counts"].as_bool().unwrap()).collect();
    assert_eq!(counts, [false, true, true]);
}

/// Once something else is done, it is refused with the way out.
#[test]
fn a_pass_is_not_taken_back_once_something_else_is_done() {
    let tables = "[repeats.stud]\nwhat = \"studs\"\neach = [\"left\", \"right\"]\n";
    let done = |at: &str| format!("{{ at = \"{at}\", do = \"done\" }}");
    let late = "{ at = \"1.3\", do = \"invalid\", reason = \"the lamp was out\" }".to_owned();
    let answers = [done("1.1"), done("1.1"), done("1.2"), late];
    let answers: Vec<&str> = answers.iter().map(String::as_str).collect();
    let (_, said) = walked(tables, "1. [stud] Wipe stud [stud].\n2. Dry it.\n3. Tidy up.\n", &answers);
    assert!(
        said.contains("no pass has just ended: once something else is done, correct what was entered in it"),
        "{said}"
    );
}
