//! Runs answered from a file.

use crate::session::stage::{Ended, Stage};

const RUN: [&str; 4] = ["run", "cooler-line-flush.md", "--vehicle", "vehicle-example.toml"];
const MATCH: &str = "    { at = \"fluid_match\", enter = \"same\" },\n";

fn with_answers(stage: &Stage, file: &str) -> Ended {
    stage.bayhand(&[&RUN[..], &["--answers", file]].concat())
}
/// A hold point that was not released is verified from its start when a run is taken up again.
const SUPPORT: &str = "    { at = \"crush\", do = \"acknowledge\" },\n";

/// A file with the first lines of another up to the answers, then only the answers from this one on.
fn rest_from(stage: &Stage, answer: &str) -> String {
    let text = stage.text("answers-example.toml");
    let (head, answers) = text.split_once("answers = [\n").expect("answers");
    let from = answers.find(answer).expect("the answer");
    format!("{head}answers = [\n{}", &answers[from..])
}

/// After a sitting that ended without a word, the brief is read and the protections are verified again.
fn goes_on(stage: &Stage, rest: &str) {
    let brief = "answers = [\n    { at = \"state\", enter = \"as it was\" },\n    { at = \"brief\", do = \"read\" },\n";
    stage.file("rest.toml", &rest.replace("answers = [\n", brief));
    let ended = with_answers(stage, "rest.toml");
    assert_eq!(ended.code, Some(0), "{}\n{}", ended.out, ended.err);
    assert!(stage.run().join("record.json").exists());
}

#[test]
fn a_whole_file_walks_to_the_record() {
    let stage = Stage::with_flush();
    let ended = with_answers(&stage, "answers-example.toml");
    assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""));
    assert!(ended.out.contains("1.1 Compare the can of"), "{}", ended.out);
    assert_eq!(stage.kinds().last().map(String::as_str), Some("closed"));
}

#[test]
fn a_missing_answer() {
    let stage = Stage::with_flush();
    let text = stage.text("answers-example.toml");
    let end = text.find(MATCH).expect("the answer");
    stage.file("short.toml", &format!("{}]\n", &text[..end]));
    let ended = with_answers(&stage, "short.toml");
    assert_eq!(ended.code, Some(1));
    assert!(
        ended.err.contains("an answer is missing: `fluid_match` is asked next (step 1.1: "),
        "{}",
        ended.err
    );
    assert!(ended.err.contains("short.toml:"), "it points into the file\n{}", ended.err);
    goes_on(&stage, &rest_from(&stage, MATCH));
}

#[test]
fn an_answer_left_out_in_the_middle() {
    let stage = Stage::with_flush();
    stage.file("gap.toml", &stage.text("answers-example.toml").replace(MATCH, ""));
    let ended = with_answers(&stage, "gap.toml");
    assert_eq!(ended.code, Some(1));
    assert!(ended.err.contains("the run asks for `fluid_match` (step 1.1"), "{}", ended.err);
    goes_on(&stage, &rest_from(&stage, MATCH));
}

#[test]
fn a_superfluous_answer() {
    let stage = Stage::with_flush();
    let twice = stage.text("answers-example.toml").replace(MATCH, &format!("{MATCH}{MATCH}"));
    let line = twice.lines().position(|line| line.contains("fluid_match")).expect("the line") + 2;
    stage.file("twice.toml", &twice);
    let ended = with_answers(&stage, "twice.toml");
    assert_eq!(ended.code, Some(1));
    assert!(ended.err.contains(&format!("twice.toml:{line}:")), "{}", ended.err);
    assert!(ended.err.contains("this answer is not asked for"), "{}", ended.err);
    goes_on(&stage, &rest_from(&stage, "    { at = \"pre-job brief\""));
}

#[test]
fn answers_after_the_end() {
    let stage = Stage::with_flush();
    let text = stage.text("answers-example.toml");
    let close = "    { at = \"close\", do = \"close\" },\n";
    stage.file("more.toml", &text.replace(close, &format!("{close}{MATCH}")));
    let ended = with_answers(&stage, "more.toml");
    assert_eq!(ended.code, Some(1), "{}", ended.err);
    assert!(ended.err.contains("this answer is not asked for"), "{}", ended.err);
}

#[test]
fn a_wrong_answer() {
    let stage = Stage::with_flush();
    let wrong = stage.text("answers-example.toml").replace("enter = \"6000 lb\"", "enter = \"20 bar\"");
    let line = wrong.lines().position(|line| line.contains("20 bar")).expect("the line") + 1;
    stage.file("wrong.toml", &wrong);
    let ended = with_answers(&stage, "wrong.toml");
    assert_eq!(ended.code, Some(1));
    assert!(ended.err.contains(&format!("wrong.toml:{line}:")), "{}", ended.err);
    assert!(ended.err.contains("this answer to `stand_rating` is not taken"), "{}", ended.err);
    assert!(ended.err.contains("pressure"), "{}", ended.err);
    goes_on(&stage, &rest_from(&stage, SUPPORT));
}

#[test]
fn a_file_that_is_no_answers() {
    let stage = Stage::with_flush();
    for (text, code) in [
        ("format = 1\n", "key-missing"),
        ("format = 2\nclock = \"2026-11-21T09:10:00+00:00\"\nanswers = []\n", "format-version"),
        ("clock =", "toml-syntax"),
    ] {
        stage.file("odd.toml", text);
        let ended = with_answers(&stage, "odd.toml");
        assert_eq!((ended.code, ended.out.as_str()), (Some(1), ""), "{}", ended.err);
        assert!(ended.err.contains(&format!("error[{code}]")), "{}", ended.err);
    }
    assert!(stage.runs().is_empty());
}

/// What a person has begun by the clock is not finished from a file with a clock of its own.
#[test]
fn a_run_that_a_person_began_is_not_answered_from_a_file() {
    let stage = Stage::with_flush();
    let begun = stage.bayhand(&RUN);
    assert_eq!(begun.code, Some(5), "nobody answers: {}", begun.err);
    let before = stage.kinds();
    let ended = with_answers(&stage, "answers-example.toml");
    assert_eq!(ended.code, Some(1), "{}\n{}", ended.out, ended.err);
    assert!(ended.err.contains("person"), "{}", ended.err);
    assert_eq!(stage.kinds(), before);
}
