//! Which run is meant: the same file name is not the same procedure, and a copy is not its original.

use std::path::Path;

use crate::session::stage::{Ended, Stage, words_of};

const HEAD: &str = "+++\nformat = 1\nrevision = \"A\"\ndate = 2026-11-25\nauthor = \"a tester\"\nscope = \"any\"\nlevel_of_use = \"continuous\"\n\
tools = \"none\"\nmaterials = \"none\"\nparts = \"none\"\nrequired = \"none\"\nclose_up = \"none\"\nhazards = \"none\"\n[roles]\nlead = \"works\"\n+++\n";

fn procedure(title: &str, act: &str) -> String {
    format!("{HEAD}# {title}\n\n1. {act}.\n2. Look.\n")
}

/// Two procedures of one name, `wipe`.
fn stage() -> Stage {
    let stage = Stage::bare();
    for (folder, act) in [("front", "Wipe the front"), ("rear", "Wipe the rear")] {
        std::fs::create_dir(stage.path(folder)).expect("a folder");
        stage.file(&format!("{folder}/wipe.md"), &procedure("Wipe", act));
    }
    stage
}

/// Begins or goes on, and leaves at once.
fn left(stage: &Stage, arguments: &[&str]) -> String {
    let ended = stage.bayhand_fed(&[&["run"], arguments].concat(), "Robin Vale\n");
    assert_eq!(ended.code, Some(5), "{}{}", ended.out, ended.err);
    words_of(&ended.out)
}

fn names(stage: &Stage) -> Vec<String> {
    let mut names: Vec<String> = stage.runs().iter().map(|run| name(run)).collect();
    names.sort();
    names
}

fn name(run: &Path) -> String {
    run.file_name().expect("a name").to_string_lossy().into_owned()
}

fn copy(from: &Path, to: &Path) {
    std::fs::create_dir_all(to).expect("a folder");
    for entry in std::fs::read_dir(from).expect("a folder") {
        let path = entry.expect("an entry").path();
        let target = to.join(path.file_name().expect("a name"));
        if path.is_dir() {
            copy(&path, &target);
        } else {
            std::fs::copy(&path, target).expect("a copy");
        }
    }
}

#[test]
fn another_procedure_of_the_same_name_begins_its_own_run_and_says_so() {
    let stage = stage();
    left(&stage, &["front/wipe.md"]);
    let front = stage.run_name();
    let said = left(&stage, &["rear/wipe.md"]);
    assert_eq!(stage.runs().len(), 2, "{said}");
    let words = format!("Run {front} is open too, of another procedure of that name, ");
    assert!(said.contains(&words), "{said}");
    let rear = names(&stage).into_iter().find(|name| *name != front).expect("the other");

    // Each goes on with its own, from wherever it is named.
    assert!(left(&stage, &["front/wipe.md"]).contains(&format!("Run {front} goes on.")));
    assert!(left(&stage, &["./rear/../rear/wipe.md"]).contains(&format!("Run {rear} goes on.")));
    assert_eq!(stage.runs().len(), 2);
}

#[test]
fn a_file_that_was_edited_or_moved_is_the_same_procedure() {
    let stage = stage();
    left(&stage, &["front/wipe.md"]);
    let run = stage.run_name();
    let goes_on = format!("Run {run} goes on.");
    stage.file("front/wipe.md", &procedure("Wipe", "Wipe the front twice"));
    let said = left(&stage, &["front/wipe.md"]);
    assert!(said.contains(&goes_on) && said.contains("was changed since the start"), "{said}");
    stage.file("wipe.md", &procedure("Wipe", "Wipe the front"));
    assert!(left(&stage, &["wipe.md"]).contains(&goes_on));
    // Moved and edited: nothing says that it is the same.
    stage.file("wipe.md", &procedure("Wipe", "Wipe the front three times"));
    assert!(left(&stage, &["wipe.md"]).contains(&format!("Run {run} is open too")));
}

#[test]
fn a_copied_run_counts_for_nothing_beside_its_original() {
    let stage = stage();
    left(&stage, &["front/wipe.md"]);
    let original = stage.run_name();
    let copied = format!("{original}-7");
    copy(&stage.run(), &stage.data().join("runs").join(&copied));

    let listed = words_of(&stage.bayhand(&["runs"]).out);
    assert!(
        listed.contains(&format!("copy: {copied} it counts for nothing while run {original} is here too")),
        "{listed}"
    );
    assert!(left(&stage, &["front/wipe.md"]).contains(&format!("Run {original} goes on.")));
    let refused = stage.bayhand(&["run", &copied]);
    assert_eq!(refused.code, Some(1));
    assert!(
        words_of(&refused.err).contains(&format!("{copied} is a copy of run {original}")),
        "{}",
        refused.err
    );

    // Without the original it is that run under another name.
    std::fs::remove_dir_all(stage.data().join("runs").join(&original)).expect("removed");
    assert!(left(&stage, &[&copied]).contains(&format!("Run {copied} goes on.")));
}

#[test]
fn a_copied_closed_run_is_listed_once() {
    let stage = Stage::with_flush();
    let run = ["run", "cooler-line-flush.md", "--vehicle", "vehicle-example.toml"];
    let ended = stage.bayhand(&[&run[..], &["--answers", "answers-example.toml"]].concat());
    assert_eq!(ended.code, Some(0), "{}", ended.err);
    let copied = format!("{}-2", stage.run_name());
    copy(&stage.run(), &stage.data().join("runs").join(&copied));
    // Once from the runs, once from the index.
    for _ in 0..2 {
        let rows: serde_json::Value =
            serde_json::from_str(&stage.bayhand(&["records", "--json"]).out).expect("JSON");
        assert_eq!(rows.as_array().map(Vec::len), Some(1), "{rows}");
        assert_ne!(rows[0]["run"], copied.as_str());
    }
    let listed = words_of(&stage.bayhand(&["runs"]).out);
    assert!(listed.contains(&format!("copy: {copied}")), "{listed}");
}

#[test]
fn a_copy_of_all_runs_says_where_the_original_is() {
    let stage = stage();
    left(&stage, &["front/wipe.md"]);
    let run = stage.run_name();
    copy(&stage.data(), &stage.path("other"));
    let words = "his is a copy: its original is still in ";
    let listed = words_of(&stage.bayhand(&["--data", "other", "runs"]).out);
    assert!(listed.contains(words), "{listed}");
    let said = left(&stage, &["--data", "other", &run]);
    assert!(said.contains(words), "{said}");
    assert!(!words_of(&stage.bayhand(&["runs"]).out).contains(words), "the original is none");
    // Taken to another place for good, it is the run itself.
    std::fs::remove_dir_all(stage.data()).expect("removed");
    assert!(!words_of(&stage.bayhand(&["--data", "other", "runs"]).out).contains(words));
}

/// The same of jobs: a name is not a job.
#[test]
fn another_job_of_the_same_name_begins_anew() {
    let stage = Stage::bare();
    for (folder, title) in [("a", "Front"), ("b", "Rear")] {
        std::fs::create_dir(stage.path(folder)).expect("a folder");
        stage.file(
            &format!("{folder}/leak.md"),
            &format!("+++\nformat = 1\njob = \"it leaks\"\n+++\n# {title}\n\n1. [Wipe](wipe.md)\n"),
        );
        stage.file(&format!("{folder}/wipe.md"), &procedure("Wipe", "Wipe"));
    }
    let answers = "format = 1\nclock = \"2026-11-21T18:00:00+00:00\"\nanswers = [\n{ at = \"lead\", enter = \"Robin Vale\" },\n\
{ at = \"scope\", do = \"true\" },\n{ at = \"1.1\", do = \"done\" },\n{ at = \"1.2\", do = \"done\" },\n{ at = \"close\", do = \"close\" },\n]\n";
    stage.file("wiped.toml", answers);
    stage.file("one.toml", "format = 1\n[[runs]]\nprocedure = \"wipe\"\nanswers = \"wiped.toml\"\n");
    let done = |ended: Ended| assert_eq!(ended.code, Some(0), "{}{}", ended.out, ended.err);
    done(stage.bayhand(&["run", "a/leak.md", "--answers", "one.toml"]));
    let other = words_of(&stage.bayhand(&["status", "b/leak.md"]).out);
    assert!(other.contains("The job 2026-11-21-leak is another one of the name `leak`"), "{other}");
    done(stage.bayhand(&["run", "b/leak.md", "--answers", "one.toml"]));
    let own = words_of(&stage.bayhand(&["status", "b/leak.md"]).out);
    assert!(own.contains("2026-11-21-wipe-2") && !own.contains("2026-11-21-wipe,"), "{own}");
    let first = words_of(&stage.bayhand(&["status", "a/leak.md"]).out);
    assert!(first.contains("2026-11-21-wipe") && !first.contains("2026-11-21-wipe-2"), "{first}");
}
