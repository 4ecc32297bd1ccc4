//! Files and folders that are not there, and a reader that goes away.

use std::io::Read;

use crate::session::stage::{Stage, ended};

#[test]
fn a_missing_file_is_named() {
    let stage = Stage::with_small_procedure();
    let missing: [&[&str]; 5] = [
        &["check", "nowhere.md"],
        &["show", "nowhere.md"],
        &["run", "nowhere.md"],
        &["run", "bleed.md", "--vehicle", "nowhere.toml"],
        &["run", "bleed.md", "--answers", "nowhere.toml"],
    ];
    for arguments in missing {
        let ended = stage.bayhand(arguments);
        assert_eq!((ended.code, ended.out.as_str()), (Some(3), ""), "{arguments:?}: {}", ended.err);
        assert!(ended.err.contains("nowhere."), "{}", ended.err);
    }
    assert!(stage.runs().is_empty());
}

#[test]
fn a_folder_and_bytes_that_are_no_text_are_no_procedure() {
    let stage = Stage::bare();
    std::fs::create_dir(stage.path("folder.md")).expect("a folder");
    std::fs::write(stage.path("bytes.md"), [0xff, 0xfe, 0x00, 0x80]).expect("bytes");
    for (command, name) in [("show", "folder.md"), ("show", "bytes.md"), ("check", "bytes.md")] {
        let ended = stage.bayhand(&[command, name]);
        assert_eq!(ended.code, Some(3), "{name}: {}{}", ended.out, ended.err);
        assert!(ended.err.contains(name), "{}", ended.err);
    }
}

#[test]
fn a_run_that_is_not_there_or_has_no_name_of_a_run() {
    let stage = Stage::bare();
    for arguments in
        [["run", "2026-11-21-nothing"], ["status", "2026-11-21-nothing"], ["record", "../../etc"]]
    {
        let ended = stage.bayhand(&arguments);
        assert_eq!((ended.code, ended.out.as_str()), (Some(3), ""), "{arguments:?}: {}", ended.err);
        assert!(ended.err.contains("`bayhand runs` lists the runs"), "{}", ended.err);
    }
}

#[test]
fn the_option_goes_before_the_environment() {
    let stage = Stage::with_small_procedure();
    let other = stage.path("other").to_string_lossy().into_owned();
    let ended = stage.bayhand_fed(&["--data", &other, "run", "bleed.md"], "Robin Vale\n");
    assert_eq!(ended.code, Some(5), "{}", ended.err);
    assert!(stage.runs().is_empty());
    assert!(stage.path("other").join("runs").is_dir());
    assert!(stage.bayhand(&["runs"]).out.starts_with("There is no run yet"));
}

#[test]
fn a_reader_that_goes_away_is_no_error() {
    let stage = Stage::with_flush();
    for arguments in
        [&["show", "cooler-line-flush.md"][..], &["explain"], &["--help"], &["completions", "zsh"]]
    {
        let mut child = stage.piped(arguments);
        let mut output = child.stdout.take().expect("its output");
        output.read_exact(&mut [0; 1]).expect("it writes");
        drop(output);
        let ended = ended(child.wait_with_output().expect("it ends"));
        assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""), "{arguments:?}");
    }
}
