//! Disks that fail for real, as far as this machine lets a test make one: system calls that answer with an error, a small
//! file system, a place that may only be read. Where it does not, the test says so and shows nothing.
//!
//! Every so many calls are tried; `BAYHAND_ALL_FAULTS=1` tries all.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use super::stage::{Ended, PROGRAM, Stage, ended, words_of};

const RUN: [&str; 6] =
    ["run", "cooler-line-flush.md", "--vehicle", "vehicle-example.toml", "--answers", "answers-example.toml"];

#[expect(clippy::print_stderr, reason = "a test that shows nothing says so")]
fn skipped(why: &str) {
    eprintln!("nothing is shown here: {why}");
}

fn works(program: &str, arguments: &[&str]) -> bool {
    let mut command = Command::new(program);
    let command = command.args(arguments).stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null());
    command.status().is_ok_and(|status| status.success())
}

/// The program under `strace`, which lets a system call fail.
fn with_fault(stage: &Stage, call: &str, error: &str, when: u64) -> Ended {
    let mut command = Command::new("strace");
    let trace = format!("trace={call}");
    let inject = format!("inject={call}:error={error}:when={when}");
    command.args(["-f", "-qq", "-o", "/dev/null", "-e", &trace, "-e", &inject, PROGRAM]).args(RUN);
    command.current_dir(stage.path("")).env_clear();
    command.env("BAYHAND_DATA", stage.data()).env("TZ", "UTC").env("LANG", "C.UTF-8");
    ended(command.stdin(Stdio::null()).output().expect("strace starts"))
}

/// How often the whole run makes this call.
fn calls(call: &str) -> u64 {
    let stage = Stage::with_flush();
    let log = stage.path("calls");
    let mut command = Command::new("strace");
    command.args(["-f", "-qq", "-e", &format!("trace={call}"), "-o"]).arg(&log).arg(PROGRAM).args(RUN);
    command.current_dir(stage.path("")).env_clear().env("BAYHAND_DATA", stage.data()).env("TZ", "UTC");
    let status = command.stdin(Stdio::null()).stdout(Stdio::null()).status().expect("strace starts");
    assert!(status.success());
    let log = fs::read_to_string(log).expect("the calls");
    log.lines().filter(|line| line.contains(&format!("{call}("))).count() as u64
}

/// The highest entry that was said to be recorded.
fn said_to_be_kept(said: &str) -> Option<usize> {
    let (_, rest) = said.split_once("everything up to entry ")?;
    rest.split(' ').next()?.parse().ok()
}

/// What is left after a failure can be read, holds what was said to be kept, and goes on.
fn stands(stage: &Stage, failed: &Ended, what: &str) {
    let said = words_of(&failed.err);
    assert!(matches!(failed.code, Some(0 | 3)), "{what}: {:?}\n{}\n{said}", failed.code, failed.out);
    assert!(failed.code == Some(0) || said.starts_with("bayhand: "), "{what}: a failure is said\n{said}");
    let runs: Vec<PathBuf> = stage.runs().into_iter().filter(|run| !is_hidden(run)).collect();
    let Some(run) = runs.first() else {
        assert_ne!(failed.code, Some(0), "{what}");
        assert_eq!(said_to_be_kept(&said), None, "{what}");
        let again = stage.bayhand(&RUN);
        assert_eq!(again.code, Some(0), "{what}: {}", again.err);
        return;
    };
    assert_eq!(runs.len(), 1, "{what}");
    let name = run.file_name().expect("a name").to_string_lossy().into_owned();
    let lines = fs::read_to_string(run.join("journal.jsonl")).expect("a journal").lines().count();
    assert!(said_to_be_kept(&said).unwrap_or(0) <= lines, "{what}: {lines} entries; {said}");
    // The program can go on with it: the lock is free, what is torn is set aside, and nothing half-made is left.
    let closed = fs::read_to_string(run.join("journal.jsonl")).is_ok_and(|journal| is_closed(&journal));
    let again = stage.bayhand(&["run", &name]);
    let expected = if closed { 1 } else { 5 };
    assert_eq!(again.code, Some(expected), "{what}: {}{}", again.out, again.err);
    if closed {
        assert_eq!(stage.bayhand(&["record", &name]).code, Some(0), "{what}");
    }
    let verified = stage.bayhand(&["verify", &run.to_string_lossy()]);
    assert_eq!(verified.code, Some(0), "{what}: {}{}", verified.out, verified.err);
    let left = fs::read_dir(run).expect("its folder").flatten();
    let left: Vec<_> = left.filter(|entry| entry.file_name().to_string_lossy().starts_with(".tmp")).collect();
    assert!(closed || left.is_empty(), "{what}: {left:?}");
}

fn is_closed(journal: &str) -> bool {
    journal.lines().last().is_some_and(|line| line.contains("\"closed\":{}"))
}

fn is_hidden(path: &Path) -> bool {
    path.file_name().is_some_and(|name| name.to_string_lossy().starts_with('.'))
}

#[test]
fn system_calls_that_fail_lose_nothing() {
    if !works("strace", &["-o", "/dev/null", "-e", "inject=fsync:error=EIO:when=9", "true"]) {
        return skipped("strace is not here, or may not trace");
    }
    let all = std::env::var_os("BAYHAND_ALL_FAULTS").is_some();
    let (mut tried, mut felt) = (0, 0);
    for (call, error) in [
        ("fsync", "EIO"),
        ("fdatasync", "EIO"),
        ("write", "ENOSPC"),
        ("write", "EIO"),
        ("rename", "EIO"),
        ("link", "EIO"),
        ("linkat", "EIO"),
        ("renameat2", "EIO"),
        ("mkdir", "EROFS"),
        ("unlink", "EIO"),
        ("flock", "ENOLCK"),
    ] {
        let calls = calls(call);
        let step = if all { 1 } else { (calls / 2).max(1) };
        let mut when = 1;
        while when <= calls {
            let stage = Stage::with_flush();
            let failed = with_fault(&stage, call, error, when);
            tried += 1;
            felt += u32::from(failed.code != Some(0));
            stands(&stage, &failed, &format!("{call} number {when} of {calls}: {error}"));
            when += if when < 2 { 1 } else { step };
        }
    }
    println!("{tried} calls failed, {felt} of them ended the command");
    assert!(felt > tried / 2, "{felt} of {tried}");
}

/// Something that is mounted for as long as this lives.
struct Mounted(PathBuf);

impl Mounted {
    fn small(at: &Path, size: &str) -> Option<Self> {
        fs::create_dir_all(at).ok()?;
        let path = at.to_str()?;
        works("mount", &["-t", "tmpfs", "-o", &format!("size={size}"), "tmpfs", path])
            .then(|| Self(at.to_path_buf()))
    }

    fn again(&self, options: &str) -> bool {
        works("mount", &["-o", &format!("remount,{options}"), &self.0.to_string_lossy()])
    }
}

impl Drop for Mounted {
    fn drop(&mut self) {
        works("umount", &[&self.0.to_string_lossy()]);
    }
}

#[test]
fn a_small_file_system_that_fills_up_loses_nothing() {
    let mut ended_full = 0;
    // Room for nothing, for the texts alone, for some entries, for all of them but no record, for all.
    for size in ["4k", "16k", "48k", "64k", "80k", "128k", "4m"] {
        let stage = Stage::with_flush();
        let Some(mounted) = Mounted::small(&stage.data(), size) else {
            return skipped("no file system may be mounted");
        };
        let failed = stage.bayhand(&RUN);
        let full = words_of(&failed.err).contains("the disk is full");
        assert_eq!(failed.code, Some(if full { 3 } else { 0 }), "{size}: {}", failed.err);
        ended_full += u32::from(full);
        assert!(mounted.again("size=4m"));
        stands(&stage, &failed, &format!("a file system of {size}"));
        drop(mounted);
    }
    assert!(ended_full >= 4, "{ended_full}");
}

#[test]
fn a_file_system_that_fills_up_under_somebody_who_sits_there_loses_nothing() {
    let stage = Stage::with_small_procedure();
    let Some(mounted) = Mounted::small(&stage.data(), "28k") else {
        return skipped("no file system may be mounted");
    };
    let note = "o\nr\na remark that takes up some room, because it goes on and on\n".repeat(200);
    let input = format!("Robin Vale\nSam Hollis\n187400 km\ny\nRV, SH\n{note}");
    let run = ["run", "bleed.md", "--vehicle", "vehicle.toml"];
    let failed = stage.bayhand_fed(&run, &input);
    let said = words_of(&failed.err);
    assert_eq!(failed.code, Some(3), "{}\n{said}", failed.out);
    assert!(said.contains("the disk is full") && said.contains("free some space"), "{said}");
    let kept = said_to_be_kept(&said).expect("what is kept is said");
    assert_eq!(stage.journal_lines().len(), kept);
    assert!(mounted.again("size=4m"));
    let again = stage.bayhand_fed(&run, "");
    assert_eq!(again.code, Some(5), "{}", again.err);
    assert_eq!(stage.journal_lines().len(), kept + 1, "and that it goes on");
    drop(mounted);
}

#[test]
fn a_place_that_becomes_read_only_loses_nothing() {
    let stage = Stage::with_small_procedure();
    let Some(mounted) = Mounted::small(&stage.data(), "1m") else {
        return skipped("no file system may be mounted");
    };
    let run = ["run", "bleed.md", "--vehicle", "vehicle.toml"];
    assert_eq!(stage.bayhand_fed(&run, "Robin Vale\n").code, Some(5));
    let before = stage.journal_lines();
    assert!(mounted.again("ro"));
    let failed = stage.bayhand_fed(&run, "Sam Hollis\n");
    let said = words_of(&failed.err);
    assert_eq!(failed.code, Some(3), "{said}");
    assert!(said.contains("the system does not allow it"), "{said}");
    assert_eq!(stage.journal_lines(), before);
    let begun = stage.bayhand_fed(&[&run[..], &["--new"]].concat(), "Robin Vale\n");
    assert_eq!(begun.code, Some(3), "{}", begun.out);
    assert_eq!(stage.runs().len(), 1);
    // Looking asks for no write.
    for looking in [&["runs"][..], &["status"], &["record"], &["sheet", &stage.run_name()]] {
        let ended = stage.bayhand(looking);
        assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""), "{looking:?}");
    }
    assert!(mounted.again("rw"));
    assert_eq!(stage.bayhand_fed(&run, "Sam Hollis\n").code, Some(5));
    drop(mounted);
}
