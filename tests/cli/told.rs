//! What the commands tell: things done besides answering, times that cannot be, runs and sheets that are not used.

use crate::run::drive::titled;
use crate::session::stage::{Stage, words_of};

const TABLES: &str = r#"[waits.cool]
what = "the demo case cools"
at_least = "10 min"
[readings.gap]
what = "gap of the demo case"
unit = "mm"
information_only = true
[readings.play]
what = "play of the demo case"
unit = "mm"
information_only = true
"#;

const BODY: &str = "## Look\n\n\
1. Measure [gap].\n\
2. Measure [play].\n\
3. Wipe it. It cools: [cool].\n\
";

fn procedure() -> String {
    titled("Look at the demo case", TABLES, BODY)
}

const HEAD: &str = r#"format = 1
clock = "2026-11-25T09:10:00+00:00"
answers = [
    { at = "lead", enter = "Robin Vale" },
    { at = "odometer", enter = "1 km" },
    { at = "scope", do = "true" },
"#;

fn walked(answers: &str) -> (Stage, String) {
    let stage = Stage::bare();
    stage.file("case.md", &procedure());
    stage.file("answers.toml", &format!("{HEAD}{answers}]\n"));
    let ended = stage.bayhand(&["run", "case.md", "--answers", "answers.toml"]);
    let said = words_of(&format!("{}\n{}", ended.out, ended.err));
    (stage, said)
}

#[test]
fn what_is_done_besides_is_told_as_what_it_is() {
    let answers = r#"
    { at = "gap", enter = "60" },
    { at = "play", do = "correct", reading = "gap", enter = "0.6", reason = "misread" },
    { at = "play", do = "correct", reading = "odometer", enter = "2 km", reason = "a digit was left out" },
    { at = "play", do = "note", reason = "the lamp is weak" },
    { at = "play", do = "take over", role = "lead", enter = "Sam Hollis", reason = "nothing is loose" },
    { at = "turnover", enter = "SH" },
    { at = "play", do = "deviation", enter = "other", reason = "another feeler gauge" },
    { at = "play", do = "later", before = "section 1", reason = "no light" },
    { at = "1.3", do = "suspend", reason = "supper", state = "case open", first = "wipe it" },
"#;
    let (_stage, said) = walked(answers);
    for words in [
        "correction of gap of the demo case: 0.6 (misread)",
        "correction of odometer: 2 km (a digit was left out)",
        "remark: the lamp is weak",
        "lead handed over to Sam Hollis: nothing is loose",
        "deviation declared, other: another feeler gauge",
        "later, at the end of section 1: no light",
        "suspended: supper; things are left: case open; first next time: wipe it",
    ] {
        assert!(said.contains(words), "{words}\n{said}");
    }
    for words in ["play of the demo case: 0.6", "-> later", "-> suspend"] {
        assert!(!said.contains(words), "{words}\n{said}");
    }
}

/// A time that no clock can pass is refused where it stands, before a run begins.
#[test]
fn a_time_too_long_is_refused_before_anything_is_answered() {
    for (from, to, place) in [
        ("answers = [", "pace = \"1e17 s\"\nanswers = [", ":3:"),
        ("at = \"odometer\",", "at = \"odometer\", after = \"1000000000000000000000 h\",", ":5:"),
    ] {
        let stage = Stage::bare();
        stage.file("case.md", &procedure());
        stage.file("answers.toml", &format!("{}]\n", HEAD.replacen(from, to, 1)));
        let ended = stage.bayhand(&["run", "case.md", "--answers", "answers.toml"]);
        assert_eq!(ended.code, Some(1), "{}", ended.out);
        assert!(ended.err.contains(&format!("answers.toml{place}")), "{}", ended.err);
        assert!(words_of(&ended.err).contains("is too long"), "{}", ended.err);
        assert!(stage.runs().is_empty());
    }
}

#[test]
fn a_wait_that_no_later_step_needs_is_rehearsed_in_whole_words() {
    let stage = Stage::bare();
    stage.file("case.md", &procedure());
    let answers = "    { at = \"gap\", enter = \"1\" },\n    { at = \"play\", enter = \"1\" },\n    { at = \"1.3\", do = \"done\" },\n    { at = \"close\", do = \"close\" },\n";
    stage.file("answers.toml", &format!("{HEAD}{answers}]\n"));
    let ended = stage.bayhand(&["rehearse", "case.md", "--answers", "answers.toml"]);
    let words = "the demo case cools: at least 10 min, from step 1.3, and no later step needs it";
    assert!(words_of(&ended.out).contains(words), "{}\n{}", ended.out, ended.err);
}

/// The name of the run can be typed as it stands, whatever the file of its procedure is called.
#[test]
fn a_new_run_gives_its_own_name_to_go_on_with() {
    let stage = Stage::bare();
    stage.file("case of [x].md", &procedure());
    let ended = stage.bayhand(&["run", "case of [x].md"]);
    let words = format!("`bayhand run {}` goes on with it.", stage.run_name());
    assert!(words_of(&ended.out).contains(&words), "{}", ended.out);
}

#[test]
fn a_sheet_for_a_run_that_began_without_one_is_said_not_to_be_used() {
    let stage = Stage::with_small_procedure();
    assert_eq!(stage.bayhand_fed(&["run", "bleed.md"], "Robin Vale\n").code, Some(5));
    let ended = stage.bayhand(&["run", "bleed.md", "--vehicle", "vehicle.toml"]);
    let said = words_of(&ended.out);
    assert!(
        said.contains("This run began without a vehicle sheet, and the one named now is not used"),
        "{said}"
    );
    assert!(!said.contains("keeps to its own"), "{said}");
}

/// Whether entries of an empty journal were acknowledged only the person can know: nothing is begun in silence.
#[test]
fn an_empty_journal_is_said_wherever_its_run_is_meant() {
    let stage = Stage::with_small_procedure();
    assert_eq!(stage.bayhand_fed(&["run", "bleed.md"], "Robin Vale\n").code, Some(5));
    let emptied = stage.run_name();
    std::fs::write(stage.run().join("journal.jsonl"), "").expect("an emptied journal");
    // Emptied at once it would be one that an earlier version did not come to fill.
    stage.began_an_hour_ago();
    let listed = words_of(&stage.bayhand(&["runs"]).out);
    assert!(listed.contains("put `journal.jsonl` back from a copy"), "{listed}");
    let begun = words_of(&stage.bayhand(&["run", "bleed.md"]).out);
    assert!(begun.contains(&format!("The journal of {emptied} is empty")), "{begun}");
    assert_eq!(stage.runs().len(), 2, "the run may go on in another beside it");
}

#[test]
fn impact_says_what_it_wants() {
    let stage = Stage::bare();
    for (arguments, words) in [
        (&["impact", ""][..], "no instrument is named; write what is written on it, such as TW-1"),
        (&["impact", "TW-1", "--since", "2026-13-01"], "`2026-13-01` is no date; write it as 2026-11-01"),
    ] {
        let ended = stage.bayhand(arguments);
        assert_eq!((ended.code, ended.out.as_str()), (Some(2), ""));
        assert!(ended.err.contains(words), "{}", ended.err);
    }
}
