//! What the outside does to a command: outputs that take nothing, names that are no files, bytes that are no text, clocks
//! and zones that make no sense.

use std::ffi::OsString;
use std::fs::File;
use std::io::Write;
use std::process::{Command, Stdio};
use std::sync::Arc;
use std::time::{Duration, SystemTime, UNIX_EPOCH};

use bayhand::cli::{self, Exit};
use bayhand::system::scripted::ScriptedClock;
use bayhand::system::{Clock, Environment, NoTime, RealClock, RealDisk, System, moment_of};
use jiff::ZonedDateTime;
use jiff::tz::TimeZone;

use crate::session::seat::{Seat, Speech};
use crate::session::stage::{Stage, ended, words_of};

/// `/dev/full` answers each write with ENOSPC (full(4) of the Linux manual).
#[test]
fn an_output_that_takes_nothing_is_an_error_of_every_command() {
    let stage = Stage::with_flush();
    let run = [
        "run",
        "cooler-line-flush.md",
        "--vehicle",
        "vehicle-example.toml",
        "--answers",
        "answers-example.toml",
    ];
    assert_eq!(stage.bayhand(&run).code, Some(0));
    let name = stage.run_name();
    let folder = stage.run().to_string_lossy().into_owned();
    let commands: [&[&str]; 29] = [
        &["--help"],
        &["--version"],
        &["run", "--help"],
        &["help", "record"],
        &["completions", "bash"],
        &["completions", "fish"],
        &["check", "cooler-line-flush.md"],
        &["show", "cooler-line-flush.md"],
        &["sheet", "cooler-line-flush.md"],
        &["kit", "cooler-line-flush.md"],
        &["kit", "--csv", "cooler-line-flush.md"],
        &["rehearse", "cooler-line-flush.md"],
        &["library"],
        &["runs"],
        &["runs", "--json"],
        &["status"],
        &["status", "--json"],
        &["record", &name],
        &["record", &name, "--json"],
        &["record", &name, "--html"],
        &["record", "--schema"],
        &["records"],
        &["records", "--csv"],
        &["verify", &folder],
        &["explain"],
        &["calc", "2 qt in L"],
        &["calc", "--units"],
        &["dates"],
        &["run", "cooler-line-flush.md", "--new"],
    ];
    for arguments in commands {
        let mut command = stage.command(arguments);
        command
            .stdin(Stdio::null())
            .stdout(File::options().write(true).open("/dev/full").expect("it is there"));
        let ended = ended(command.stderr(Stdio::piped()).output().expect("it ends"));
        assert_eq!(ended.code, Some(3), "{arguments:?}: {}", ended.err);
        assert!(
            ended.err.starts_with("bayhand: ") && ended.err.contains("No space left"),
            "{arguments:?}: {}",
            ended.err
        );
        assert!(!ended.err.contains("panicked"), "{arguments:?}: {}", ended.err);
    }
    // A command line that is not right is so whether or not anybody can be told.
    let mut command = stage.command(&["--nonsense"]);
    command.stderr(File::options().write(true).open("/dev/full").expect("it is there"));
    assert_eq!(command.status().expect("it ends").code(), Some(2));
}

#[test]
fn a_pipe_a_device_and_a_folder_are_refused_at_once_wherever_a_file_is_meant() {
    let stage = Stage::with_flush();
    std::fs::create_dir(stage.path("folder.md")).expect("a folder");
    for pipe in ["pipe.md", "pipe.toml", "pipe.zip", "record.json"] {
        assert!(Command::new("mkfifo").arg(stage.path(pipe)).status().expect("mkfifo").success());
    }
    let flush = "cooler-line-flush.md";
    let commands: [&[&str]; 20] = [
        &["check", "pipe.md"],
        &["check", "pipe.toml"],
        &["check", "/dev/zero"],
        &["check", "/dev/null"],
        &["show", "pipe.md"],
        &["sheet", "pipe.md"],
        &["kit", "pipe.md"],
        &["rehearse", "pipe.md"],
        &["run", "pipe.md"],
        &["run", "/dev/zero.md"],
        &["run", "folder.md"],
        &["run", flush, "--vehicle", "pipe.toml"],
        &["run", flush, "--vehicle", "/dev/zero"],
        &["run", flush, "--answers", "pipe.toml"],
        &["run", flush, "--answers", "/dev/tty"],
        &["verify", "record.json"],
        &["receive", "pipe.zip", "there"],
        &["share", "pipe.md", "--to", "out.zip"],
        &["sign", "record.json", "--name", "R", "--meaning", "performed", "--key", "pipe.toml"],
        &["verify", "--allowed-signers", "pipe.toml", "record.json"],
    ];
    for arguments in commands {
        let mut child = stage.piped(arguments);
        drop(child.stdin.take());
        let mut waited = Duration::ZERO;
        while child.try_wait().expect("its state").is_none() {
            std::thread::sleep(Duration::from_millis(20));
            waited += Duration::from_millis(20);
            if waited > Duration::from_secs(30) {
                let _ = child.kill();
                panic!("{arguments:?} waits for ever");
            }
        }
        let ended = ended(child.wait_with_output().expect("it ends"));
        assert!(matches!(ended.code, Some(1..=3)), "{arguments:?}: {:?} {}", ended.code, ended.err);
        assert!(!(ended.out.clone() + &ended.err).contains("panicked"), "{arguments:?}");
    }
    let said = stage.bayhand(&["check", "pipe.md"]).err;
    assert!(words_of(&said).contains("`pipe.md`: it is a pipe, a device or a socket, not a file"), "{said}");
    assert!(stage.runs().is_empty());
}

#[test]
fn a_byte_that_is_no_text_is_a_refused_answer_in_a_pipe() {
    let stage = Stage::with_small_procedure();
    let mut child = stage.piped(&["run", "bleed.md", "--vehicle", "vehicle.toml"]);
    let input = b"Robin \xffVale\nRobin Vale\n\xc3\nSam Hollis\ny\xe9\n187400 km\n\xfe\ny\n";
    let _ = child.stdin.take().expect("its input").write_all(input);
    let ended = ended(child.wait_with_output().expect("it ends"));
    assert_eq!(ended.code, Some(5), "{}", ended.err);
    assert_eq!(ended.out.matches("Nothing of that is taken").count(), 4, "{}", ended.out);
    let journal = stage.journal_lines().join("\n");
    assert!(!journal.contains('\u{fffd}'), "{journal}");
    assert!(journal.contains("\"Robin Vale\"") && journal.contains("\"Sam Hollis\""), "{journal}");
    assert!(journal.contains("187400 km"), "{journal}");
}

#[test]
fn a_byte_that_is_no_text_is_a_refused_answer_at_a_terminal() {
    let stage = Stage::with_small_procedure();
    let mut seat = Seat::at_small_procedure(&stage, Speech::Colour, 80);
    // A line: what was typed of it is dropped, and the rest of it is no answer.
    seat.reads("Name of the lead");
    seat.pty.type_bytes(b"Robin \xff\xfeVale\r");
    seat.pty.until_text("Nothing of that is taken");
    seat.pty.type_bytes(b"Robin Vale\r");
    seat.pty.until_text("Name of the helper");
    seat.pty.type_bytes(b"Sam Hollis\r");
    seat.pty.until_text("Odometer");
    seat.pty.type_bytes(b"187400 km\r");
    // Its keys stand there last: what is typed before them is thrown away.
    seat.pty.until_text("[y] yes");
    // A key: no first byte of a character, one that cannot be, and one whose rest is another key.
    for bytes in [&b"\xff"[..], b"\x80", b"\xc3("] {
        seat.pty.type_bytes(bytes);
        seat.pty.until_text("is not asked for here");
    }
    std::thread::sleep(Duration::from_millis(600));
    seat.pty.type_bytes(b"y");
    seat.pty.until_text("Present, by name or initials");
    let journal = stage.journal_lines().join("\n");
    assert!(journal.contains("\"Robin Vale\"") && !journal.contains("\"Robin \""), "{journal}");
}

fn at(now: &str, zone: &[(&str, &str)]) -> System {
    let now: ZonedDateTime = now.parse().expect("a time");
    System::new(
        Arc::new(ScriptedClock::standing(now)),
        Arc::new(RealDisk),
        Environment::of(zone.iter().copied()),
    )
}

#[test]
fn a_clock_that_makes_no_sense_is_an_error_with_its_way_out() {
    for (now, year) in [
        ("1969-12-31T23:59:59+00:00[UTC]", 1969),
        ("0001-01-02T00:00:00+00:00[UTC]", 1),
        ("9999-12-30T00:00:00+00:00[UTC]", 9999),
    ] {
        let system = at(now, &[]);
        let error = system.time_makes_sense().expect_err("no such year");
        assert_eq!(error, NoTime::Clock { year });
        assert_eq!(
            error.to_string(),
            format!("the clock of this machine shows the year {year}; set it, and begin again")
        );
        let folder = tempfile::tempdir().expect("a folder");
        let data = folder.path().to_string_lossy().into_owned();
        let arguments = ["bayhand", "--data", &data, "runs"].map(OsString::from);
        assert_eq!(cli::main(system, arguments), Exit::Trouble);
    }
    assert_eq!(at("2026-11-21T18:30:00+01:00[Europe/Berlin]", &[]).time_makes_sense(), Ok(()));
}

/// Source: jiff, which finds the zone of the machine by way of the whole database.
#[test]
fn the_zone_of_the_machine_is_the_one_that_a_library_of_time_zones_finds() {
    let (found, expected) = (RealClock.now(), TimeZone::system());
    for month in 0..24 {
        let then = found.timestamp() + jiff::SignedDuration::from_hours(730 * month);
        assert_eq!(found.time_zone().to_offset(then), expected.to_offset(then), "{then}");
    }
}

#[test]
fn any_clock_shows_a_time_that_can_be_written_down() {
    let day = Duration::from_secs(86_400);
    let shown: [Option<SystemTime>; 6] = [
        UNIX_EPOCH.checked_sub(day * 4_000_000),
        UNIX_EPOCH.checked_sub(day),
        Some(UNIX_EPOCH),
        UNIX_EPOCH.checked_add(day * 20_000),
        UNIX_EPOCH.checked_add(day * 2_932_600),
        UNIX_EPOCH.checked_add(day * 90_000_000),
    ];
    for shown in shown.into_iter().flatten() {
        let time = moment_of(shown).to_zoned_datetime(TimeZone::UTC);
        assert!((1..=9998).contains(&time.year()), "{shown:?}: {time}");
        let written = bayhand::journal::write_time(&time);
        assert!(bayhand::journal::read_time(&written).is_ok(), "{written}");
    }
    let exact = UNIX_EPOCH + Duration::from_millis(1_795_282_205_123);
    assert_eq!(moment_of(exact).to_string(), "2026-11-21T17:30:05.123Z");
}

#[test]
fn a_time_zone_that_there_is_none_of_is_an_error_with_its_way_out() {
    let stage = Stage::with_small_procedure();
    stage.file("notes.txt", "no zone");
    let notes = stage.path("notes.txt").to_string_lossy().into_owned();
    assert!(Command::new("mkfifo").arg(stage.path("pipe")).status().expect("mkfifo").success());
    let pipe = format!(":{}", stage.path("pipe").display());
    for zone in [
        "garbage",
        ":/dev/zero",
        "/dev/zero",
        ":",
        "Nowhere/Land",
        "../../../dev/zero",
        "<+99>99",
        &notes,
        &pipe,
        "x\u{9b}2J",
    ] {
        for arguments in [&["run", "bleed.md"][..], &["runs"], &["check", "bleed.md"]] {
            let mut command = stage.command(arguments);
            let output = command.env("TZ", zone).stdin(Stdio::null()).output();
            let ended = ended(output.expect("it ends"));
            assert_eq!((ended.code, ended.out.as_str()), (Some(3), ""), "{zone}: {}", ended.err);
            let said = words_of(&ended.err);
            assert!(
                said.contains("names a time zone that there is none of") && said.contains("unset TZ"),
                "{said}"
            );
            assert!(!said.contains('\u{9b}'));
        }
    }
    for zone in ["UTC", "", "<+0545>-5:45", "EST5EDT,M3.2.0,M11.1.0"] {
        let mut command = stage.command(&["runs"]);
        assert_eq!(command.env("TZ", zone).output().expect("it ends").status.code(), Some(0), "{zone}");
    }
    assert!(stage.runs().is_empty());
}
