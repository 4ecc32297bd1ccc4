//! No evening asks for more than a tired person answers with care.

use bayhand::answers::Script;
use jiff::SignedDuration;

/// From here on it is another sitting: nobody works on for so long without a break.
const NIGHT: SignedDuration = SignedDuration::from_hours(4);

/// The most answers of an evening: common practice, and what the plan of the job gives for two to four hours.
const EVENING: usize = 40;

/// The flush works with solvent and compressed air, and cannot be left half done: what guards people and rebuilt unit there
/// takes more answers than any other evening.
const FLUSH: usize = 75;

/// How many answers each sitting of a file takes.
fn sittings(text: &str) -> Vec<usize> {
    let script = Script::read(text).expect("answers that can be read");
    let mut sittings = vec![0];
    // What becomes of a loose end is asked when it is done, another day; in a job, in its last run.
    for (line, _) in script.lines.iter().filter(|(line, _)| line.at != "loose end") {
        let pause = line.pause().transpose().expect("a time");
        if pause.is_some_and(|pause| pause >= NIGHT) {
            sittings.push(0);
        }
        *sittings.last_mut().expect("a sitting") += 1;
    }
    sittings
}

#[test]
fn no_sitting_takes_more_answers_than_a_person_gives_with_care() {
    let mut paths = vec![std::path::PathBuf::from("procedures/answers-example.toml")];
    let entries = std::fs::read_dir("procedures/answers").expect("a folder that is shipped");
    paths.extend(entries.map(|entry| entry.expect("an entry").path()));
    paths.retain(|path| !path.ends_with("whole-job.toml"));
    assert!(paths.len() > 30, "{paths:?}");
    for path in paths {
        let most = if path.ends_with("answers-example.toml") { FLUSH } else { EVENING };
        let taken = sittings(&std::fs::read_to_string(&path).expect("a text"));
        assert!(taken.iter().all(|answers| (1..=most).contains(answers)), "{}: {taken:?}", path.display());
    }
}

#[test]
fn a_night_between_two_answers_parts_two_sittings() {
    let text = "format = 1\nclock = \"2026-11-01T18:00:00+00:00\"\nanswers = [\n{ at = \"a\", do = \"done\" },\n\
                { at = \"b\", do = \"done\", after = \"25 min\" },\n{ at = \"c\", do = \"done\", after = \"12 h\" },\n]\n";
    assert_eq!(sittings(text), [2, 1]);
}

/// The least rest between two sittings that count as two.
const REST: SignedDuration = SignedDuration::from_hours(2);

/// In the example job nobody goes from one sitting straight into the next.
#[test]
fn between_two_sittings_of_the_job_there_is_a_rest() {
    let folder = std::path::Path::new("procedures/answers");
    let whole = std::fs::read_to_string(folder.join("whole-job.toml")).expect("a text");
    let whole: toml::Table = whole.parse().expect("a job's answers");
    let mut rested: Option<jiff::Timestamp> = None;
    for run in whole["runs"].as_array().expect("runs") {
        let file = run["answers"].as_str().expect("a file");
        let script =
            Script::read(&std::fs::read_to_string(folder.join(file)).expect("a text")).expect("answers");
        let begins = script.clock.timestamp();
        assert!(rested.is_none_or(|rested| begins >= rested), "{file} begins at {begins}");
        let pauses =
            script.lines.iter().map(|(line, _)| line.pause().unwrap_or(Ok(script.pace)).expect("a time"));
        rested = Some(pauses.fold(begins, |at, pause| at + pause) + REST);
    }
}
