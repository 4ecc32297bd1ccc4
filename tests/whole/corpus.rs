//! What a released version has written is read and verified by every later one: `tests/cases/corpus/`, a folder a format.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use bayhand::journal::Digest;

use crate::session::stage::{Ended, Stage, words_of};

/// The list of what is in a folder of the corpus, as `sha256sum` writes it.
const SUMS: &str = "SHA256SUMS";

fn corpus() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases/corpus")
}

/// The files below a folder, by their paths in it, each with the digest of its bytes.
fn files(folder: &Path) -> BTreeMap<String, String> {
    let mut found = BTreeMap::new();
    let mut open = vec![folder.to_owned()];
    while let Some(above) = open.pop() {
        for entry in fs::read_dir(&above).expect("a folder") {
            let path = entry.expect("an entry").path();
            if path.is_dir() {
                open.push(path);
                continue;
            }
            let name = path.strip_prefix(folder).expect("below it").components();
            let name: Vec<_> = name.map(|part| part.as_os_str().to_string_lossy()).collect();
            let bytes = fs::read(&path).expect("a file");
            found.insert(name.join("/"), Digest::of(&bytes).to_string());
        }
    }
    found
}

/// The files of a folder of the corpus, without what they lock and without their list.
fn kept(folder: &Path) -> BTreeMap<String, String> {
    let mut files = files(folder);
    files.retain(|name, _| Path::new(name).extension() != Some("lock".as_ref()) && name != SUMS);
    files
}

/// What looking must not change: all of it but what a listing remembers of closed runs, which can be made anew at any time.
fn looked_at(stage: &Stage) -> BTreeMap<String, String> {
    let mut files = kept(&stage.path(""));
    files.retain(|name, _| !Path::new(name).ends_with("closed-runs.txt"));
    files
}

/// A copy of what version 1 has written, to be worked with.
fn version_1() -> Stage {
    let stage = Stage::bare();
    let from = corpus().join("v1");
    for name in files(&from).into_keys() {
        let to = stage.path(&name);
        fs::create_dir_all(to.parent().expect("a folder")).expect("a folder");
        fs::copy(from.join(&name), to).expect("a file");
    }
    stage
}

fn is_good(ended: &Ended) -> String {
    let said = words_of(&(ended.out.clone() + &ended.err));
    assert_eq!(ended.code, Some(0), "{said}");
    said
}

#[test]
fn what_is_in_the_corpus_never_changes() {
    for folder in fs::read_dir(corpus()).expect("the corpus") {
        let folder = folder.expect("a folder").path();
        let sums = fs::read_to_string(folder.join(SUMS)).expect("the list of its files");
        let listed = sums.lines().map(|line| line.split_once("  ").expect("a digest and a path"));
        let listed: BTreeMap<String, String> =
            listed.map(|(digest, path)| (path.to_owned(), digest.to_owned())).collect();
        assert_eq!(kept(&folder), listed, "{}", folder.display());
    }
}

#[test]
fn every_run_and_every_record_verifies_and_stays_as_it_is() {
    let stage = version_1();
    let before = looked_at(&stage);
    let runs: Vec<PathBuf> = stage.runs().into_iter().filter(|run| run.is_dir()).collect();
    assert_eq!(runs.len(), 5);
    for run in &runs {
        let said = is_good(&stage.bayhand(&["verify", &run.to_string_lossy()]));
        assert!(said.starts_with("verified: "), "{said}");
        is_good(&stage.bayhand(&["status", &run.file_name().expect("a name").to_string_lossy()]));
    }
    for (record, words) in [
        ("every", "signed: performed by Robin Vale"),
        ("every-redacted", "signed: released by Bay 4"),
        ("three-deep", "signed: verified by Sam Hollis"),
    ] {
        let (record, signers) = (format!("records/{record}.json"), "records/allowed_signers");
        let said = is_good(&stage.bayhand(&["verify", &record, "--allowed-signers", signers]));
        assert!(said.contains(words) && said.contains("robin@example.org"), "{said}");
    }
    for form in [&["--json"][..], &["--html"], &["--markdown"], &["--csv"], &[]] {
        is_good(&stage.bayhand(&[&["record", "2026-11-30-every"], form].concat()));
    }
    let listed = is_good(&stage.bayhand(&["runs"]));
    assert_eq!((listed.matches("open: ").count(), listed.matches("closed: ").count()), (1, 4), "{listed}");
    assert_eq!(looked_at(&stage), before, "what was looked at has changed");
}

/// The record of a job is worked out again from its runs, and is the one that was kept.
#[test]
fn the_record_of_a_job_is_the_same() {
    let stage = version_1();
    let before = looked_at(&stage);
    let ended = stage.bayhand(&["record", "files/oil.md"]);
    assert_eq!((is_good(&ended).contains("RECORD OF THE JOB"), ended.err.as_str()), (true, ""));
    assert_eq!(looked_at(&stage), before, "what was looked at has changed");
}

#[test]
fn an_open_run_goes_on_to_its_end() {
    let stage = version_1();
    let folder = stage.path("data/runs/2026-11-23-three-deep");
    let before = fs::read_to_string(folder.join("journal.jsonl")).expect("a journal");
    let go_on = [
        "run",
        "files/three-deep.md",
        "--vehicle",
        "files/linked-sheet.toml",
        "--answers",
        "files/rest.toml",
    ];
    is_good(&stage.bayhand(&go_on));
    let after = fs::read_to_string(folder.join("journal.jsonl")).expect("a journal");
    assert!(after.starts_with(&before) && after.len() > before.len(), "its entries stay as they are");
    is_good(&stage.bayhand(&["verify", &folder.to_string_lossy()]));
}

#[test]
fn what_was_written_by_hand_and_what_was_shared_is_still_taken() {
    let stage = version_1();
    for file in
        ["every.md", "three-deep.md", "oil.md", "drain.md", "fill.md", "oil-sheet.toml", "linked-sheet.toml"]
    {
        let said = is_good(&stage.bayhand(&["check", &format!("files/{file}")]));
        assert!(!said.contains("error["), "{said}");
    }
    is_good(&stage.bayhand(&["receive", "records/oil.zip", "friend"]));
    assert_eq!(stage.text("friend/oil.md"), stage.text("files/oil.md"));
    let answers = ["--answers", "files/whole.toml"];
    let run = ["--data", "again", "run", "friend/oil.md", "--vehicle", "friend/oil-sheet.toml"];
    is_good(&stage.bayhand(&[&run[..], &answers].concat()));
}
