//! `bayhand share` and `bayhand receive` from end to end.

use std::fs;
use std::path::Path;

use super::made::{archive, ordinary};
use crate::session::stage::{Ended, Stage, words_of};

const CASES: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/cases/share");

/// A folder of its own with the job, its procedures, its picture and the sheet.
pub fn workshop() -> Stage {
    let stage = Stage::bare();
    for name in
        ["leak.md", "emergency.md", "lines/drain.md", "lines/tap.md", "lines/fill.md", "pictures/plug.png"]
    {
        let path = stage.path(&format!("work/{name}"));
        fs::create_dir_all(path.parent().expect("a folder")).expect("a folder");
        fs::copy(Path::new(CASES).join("files").join(name), path).expect("a file of the tests");
    }
    fs::copy(Path::new(CASES).join("sheet.toml"), stage.path("sheet.toml")).expect("a file of the tests");
    stage
}

/// Shares the whole job.
pub fn shared(stage: &Stage) -> Ended {
    let ended = stage.bayhand(&["share", "work/leak.md", "--vehicle", "sheet.toml", "--to", "leak.zip"]);
    assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""), "{}", ended.out);
    ended
}

fn take(stage: &Stage, more: &[&str]) -> Ended {
    stage.bayhand(&[&["receive", "leak.zip", "friend"], more].concat())
}

#[test]
fn a_job_goes_in_one_file_and_comes_out_whole() {
    let stage = workshop();
    let said = words_of(&shared(&stage).out);
    for path in ["FORMAT.md", "emergency.md", "leak.md", "lines/tap.md", "pictures/plug.png", "sheet.toml"] {
        assert!(said.contains(path), "{path}: {said}");
    }
    let archive = fs::read(stage.path("leak.zip")).expect("the archive");
    shared(&stage);
    assert_eq!(fs::read(stage.path("leak.zip")).expect("the archive"), archive, "again, and the same");
    let taken = take(&stage, &[]);
    assert_eq!((taken.code, taken.err.as_str()), (Some(0), ""));
    let said = words_of(&taken.out);
    assert!(said.contains("8 files were written into friend."), "{said}");
    assert!(said.contains("friend/lines/tap.md: nothing to report"), "it is checked: {said}");
    assert!(said.ends_with("To run it: bayhand run friend/leak.md --vehicle friend/sheet.toml"), "{said}");
    assert_eq!(
        fs::read(stage.path("friend/pictures/plug.png")).ok(),
        fs::read(stage.path("work/pictures/plug.png")).ok()
    );
    let again = take(&stage, &[]);
    assert!(
        words_of(&again.out).contains("0 files were written into friend. 8 are there already, the same."),
        "{}",
        again.out
    );
}

#[test]
fn what_differs_is_shown_and_nothing_is_written() {
    let stage = workshop();
    shared(&stage);
    fs::create_dir_all(stage.path("friend/lines")).expect("a folder");
    let own = stage.text("work/lines/tap.md").replace("Turn the tap until it stops", "Turn it gently");
    stage.file("friend/lines/tap.md", &own);
    stage.file("friend/emergency.md", &stage.text("work/emergency.md"));
    let refused = take(&stage, &[]);
    assert_eq!((refused.code, refused.out.as_str()), (Some(1), ""));
    let said = words_of(&refused.err);
    let lines = "lines/tap.md line 21: - 1. Turn it gently. + 1. Turn the tap until it stops.";
    assert!(said.contains(lines) && said.contains("--replace"), "{said}");
    assert!(!stage.path("friend/leak.md").exists() && stage.text("friend/lines/tap.md") == own);
    let replaced = take(&stage, &["--replace"]);
    assert_eq!(replaced.code, Some(0), "{}", replaced.err);
    assert!(
        words_of(&replaced.out).contains("7 files were written into friend. 1 are there already"),
        "{}",
        replaced.out
    );
    assert!(words_of(&replaced.out).contains("Kept: friend/lines/tap.md.old"), "{}", replaced.out);
    assert_eq!(stage.text("friend/lines/tap.md.old"), own);
    assert_eq!(stage.text("friend/lines/tap.md"), stage.text("work/lines/tap.md"));
}

/// Anything wrong with an archive: a reason, exit 1, and not so much as a folder.
#[test]
fn a_hostile_archive_writes_nothing() {
    let stage = Stage::bare();
    let cases: [(&str, Vec<u8>); 4] = [
        ("../out.md", archive(&[ordinary("a.md", b"a"), ordinary("../out.md", b"out")])),
        ("two files", archive(&[ordinary("a.md", b"a"), ordinary("a.md", b"b")])),
        ("no whole ZIP archive", b"# Not one\n".to_vec()),
        ("no whole ZIP archive", archive(&[ordinary("a.md", b"a")])[..40].to_vec()),
    ];
    for (reason, bytes) in cases {
        fs::write(stage.path("leak.zip"), bytes).expect("an archive");
        let ended = take(&stage, &[]);
        assert_eq!((ended.code, ended.out.as_str()), (Some(1), ""), "{reason}");
        assert!(words_of(&ended.err).contains(reason), "{reason}: {}", ended.err);
        assert!(!stage.path("friend").exists() && !stage.path("out.md").exists());
    }
}

#[test]
fn an_archive_and_a_file_that_is_not_there() {
    let stage = workshop();
    shared(&stage);
    stage.file("work/emergency.md", "another text");
    let other = stage.bayhand(&["share", "work/leak.md", "--to", "leak.zip"]);
    assert_eq!(other.code, Some(3), "another archive is not overwritten");
    assert!(
        words_of(&other.err).contains("choose another name, or move the existing one away"),
        "{}",
        other.err
    );
    fs::remove_file(stage.path("work/emergency.md")).expect("a file");
    let gone = stage.bayhand(&["share", "work/leak.md", "--to", "new.zip"]);
    assert_eq!(gone.code, Some(1));
    assert!(
        words_of(&gone.err).contains("`leak.md` links to `emergency.md`: could not read"),
        "{}",
        gone.err
    );
    assert!(!stage.path("new.zip").exists());
    assert_eq!(stage.bayhand(&["share", "nowhere.md", "--to", "new.zip"]).code, Some(3));
    assert_eq!(stage.bayhand(&["receive", "nowhere.zip", "friend"]).code, Some(3));
}

/// One procedure that leads up to its picture and down to another: each keeps its place.
#[test]
fn a_procedure_brings_what_lies_around_it() {
    let stage = workshop();
    let ended = stage.bayhand(&["share", "work/lines/drain.md", "--to", "drain.zip"]);
    assert_eq!(ended.code, Some(0), "{}", ended.err);
    let taken = stage.bayhand(&["receive", "drain.zip", "friend"]);
    assert!(words_of(&taken.out).ends_with("To run it: bayhand run friend/lines/drain.md"), "{}", taken.out);
    assert!(stage.path("friend/pictures/plug.png").exists() && !stage.path("friend/leak.md").exists());
}

/// What is inside the program is shared as any other.
#[test]
fn the_library_is_shared_by_its_names() {
    let stage = Stage::bare();
    let ended = stage.bayhand(&[
        "share",
        "cold-reverse-stall",
        "--vehicle",
        "vehicle-example.toml",
        "--to",
        "all.zip",
    ]);
    assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""));
    let said = words_of(&ended.out);
    assert!(said.contains("emergencies.md") && said.contains("seized-fastener.md"), "{said}");
}
