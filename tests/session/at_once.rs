//! Several at once, folders that go away, foreign hands in a journal, other zones and another locale.

use std::fs;
use std::io::Write;
use std::process::Child;

use super::seat::{Seat, Speech};
use super::stage::{Stage, ended, words_of};
use super::walk;

const RUN: [&str; 4] = ["run", "bleed.md", "--vehicle", "vehicle.toml"];

fn fed(mut child: Child, input: &str) -> super::stage::Ended {
    // It may end before it has read everything.
    let _ = child.stdin.take().expect("its input").write_all(input.as_bytes());
    ended(child.wait_with_output().expect("it ends"))
}

/// Whoever begins at the same moment gets a run of his own, and every journal is whole.
#[test]
fn many_begin_the_same_procedure_at_once() {
    const MANY: usize = 8;
    let stage = Stage::with_small_procedure();
    let all: Vec<Child> = (0..MANY).map(|_| stage.piped(&[&RUN[..], &["--new"]].concat())).collect();
    for (nth, child) in all.into_iter().enumerate() {
        let ended = fed(child, &format!("Robin Vale {nth}\n"));
        assert_eq!((ended.code, ended.err.contains("panicked")), (Some(5), false), "{}", ended.err);
    }
    let runs = stage.runs();
    assert_eq!(runs.len(), MANY, "{runs:?}");
    let journals: Vec<String> =
        runs.iter().map(|run| fs::read_to_string(run.join("journal.jsonl")).expect("a journal")).collect();
    for nth in 0..MANY {
        let name = format!("\"Robin Vale {nth}\"");
        assert_eq!(journals.iter().filter(|journal| journal.contains(&name)).count(), 1, "{name}");
    }
    let listed = stage.bayhand(&["runs", "--json"]);
    assert_eq!(listed.code, Some(0), "{}", listed.err);
    for run in &runs {
        let name = run.file_name().expect("a name").to_string_lossy().into_owned();
        let journal = fs::read_to_string(run.join("journal.jsonl")).expect("a journal");
        assert!(journal.contains(&format!("\"run\":\"{name}\"")), "a run knows its own name: {journal}");
    }
}

/// Without `--new` one works on the run, and the others are told so or begin before they see it; nobody writes twice.
#[test]
fn many_go_on_with_the_same_run_at_once() {
    let stage = Stage::with_small_procedure();
    assert_eq!(stage.bayhand_fed(&RUN, "Robin Vale\n").code, Some(5));
    let all: Vec<Child> = (0..8).map(|_| stage.piped(&RUN)).collect();
    let codes: Vec<Option<i32>> = all.into_iter().map(|child| fed(child, "y\nSam Hollis\n").code).collect();
    assert!(codes.iter().all(|code| matches!(code, Some(4 | 5))), "{codes:?}");
    let events = stage.events();
    let names = events.iter().filter(|event| event.to_string().contains("Sam Hollis")).count();
    assert_eq!(names, 1, "{events:?}");
    assert_eq!(stage.bayhand(&["status"]).code, Some(0));
}

#[test]
fn a_folder_that_is_deleted_while_somebody_sits_there_is_said() {
    for all_of_it in [false, true] {
        let stage = Stage::with_small_procedure();
        let mut seat = Seat::at_small_procedure(&stage, Speech::NoColour, 80);
        walk::begin(&mut seat);
        seat.reads("Read and understood?");
        let gone = if all_of_it { stage.data() } else { stage.run() };
        fs::remove_dir_all(gone).expect("it is deleted");
        seat.key("Read and understood?", "a");
        seat.sees("another file stands under its name, or none");
        seat.sees("everything up to entry");
        assert_eq!(seat.pty.exit_code(), 3);
        assert!(stage.runs().is_empty(), "nothing is made in its place");
    }
}

#[test]
fn a_line_from_a_foreign_hand_stops_the_writing_and_is_said() {
    let stage = Stage::with_small_procedure();
    let mut seat = Seat::at_small_procedure(&stage, Speech::NoColour, 80);
    walk::begin(&mut seat);
    seat.reads("Read and understood?");
    let path = stage.run().join("journal.jsonl");
    let before = fs::read_to_string(&path).expect("a journal");
    fs::OpenOptions::new()
        .append(true)
        .open(&path)
        .and_then(|mut file| file.write_all(b"a note\n"))
        .expect("a note");
    seat.key("Read and understood?", "a");
    seat.sees("keep other programs off this folder");
    assert_eq!(seat.pty.exit_code(), 3);
    assert_eq!(fs::read_to_string(&path).expect("a journal"), format!("{before}a note\n"));
    let again = stage.bayhand(&RUN);
    assert_eq!(again.code, Some(3), "{}", again.out);
    assert!(words_of(&again.err).contains("a run of bleed cannot be gone on with"), "{}", again.err);
    // Without that line it is what it was.
    fs::write(&path, before).expect("the journal");
    assert_eq!(stage.bayhand(&RUN).code, Some(5));
}

/// The zone of each sitting stands in its entries; what was decided stays.
#[test]
fn another_zone_at_each_sitting() {
    let stage = Stage::with_small_procedure();
    let sits = |zone: &str, input: &str| {
        let mut command = stage.command(&RUN);
        command.env("TZ", zone);
        let child = command
            .stdin(std::process::Stdio::piped())
            .stdout(std::process::Stdio::piped())
            .stderr(std::process::Stdio::piped())
            .spawn();
        fed(child.expect("bayhand starts"), input)
    };
    // POSIX: what stands in the angle brackets is a name; west of Greenwich is positive.
    for (zone, input) in
        [("UTC", "Robin Vale\n"), ("<+0545>-5:45", "Sam Hollis\n"), ("<-07>7", "y\n187400 km\n")]
    {
        let ended = sits(zone, input);
        assert_eq!(ended.code, Some(5), "{zone}: {}", ended.err);
    }
    let lines = stage.journal_lines().join("\n");
    for offset in ["+00:00\"", "+05:45\"", "-07:00\""] {
        assert!(lines.contains(offset), "{offset}: {lines}");
    }
    assert_eq!(stage.bayhand(&["status"]).code, Some(0));
    assert_eq!(stage.bayhand(&["record"]).code, Some(0));
}

/// A locale with a decimal comma changes nothing, of what is shown and of what is understood.
#[test]
fn a_locale_with_a_decimal_comma_changes_nothing() {
    let asked: [&[&str]; 7] = [
        &["show", "cooler-line-flush.md"],
        &["check", "cooler-line-flush.md"],
        &["calc", "3,5 qt in L"],
        &["calc", "3.5 qt in L"],
        &["calc", "1,234 qt in L"],
        &["calc", "1.234,5 mL in L"],
        &[
            "run",
            "cooler-line-flush.md",
            "--vehicle",
            "vehicle-example.toml",
            "--answers",
            "answers-example.toml",
        ],
    ];
    for arguments in asked {
        let in_locale = |locale: &str| {
            let stage = Stage::with_flush();
            let mut command = stage.command(arguments);
            command.env("LC_ALL", locale).env("LC_NUMERIC", locale).env("LANG", locale);
            let ended = ended(command.output().expect("it ends"));
            let here = stage.data().to_string_lossy().into_owned();
            (ended.code, ended.out.replace(&here, "DATA"), ended.err)
        };
        let plain = in_locale("C");
        for locale in ["de_DE.UTF-8", "fr_FR.UTF-8", "tr_TR.UTF-8", "nonsense"] {
            assert_eq!(in_locale(locale), plain, "{arguments:?} in {locale}");
        }
    }
}

/// What a comma means is not left open: decimals, or asked back where it could part thousands.
#[test]
fn a_typed_comma_is_understood_or_asked_back() {
    let stage = Stage::with_small_procedure();
    let input = "Robin Vale\nSam Hollis\n187,400 km\n1\ny\n";
    let ended = stage.bayhand_fed(&RUN, input);
    let said = words_of(&ended.out);
    assert!(said.contains("187400") && said.contains("187.4"), "both readings are shown: {said}");
    let stage = Stage::with_small_procedure();
    let ended = stage.bayhand_fed(&RUN, "Robin Vale\nSam Hollis\n187400,5 km\n");
    assert_eq!(ended.code, Some(5), "{}", ended.err);
    assert!(stage.journal_lines().join("\n").contains("187400,5 km"), "as typed: {}", ended.out);
}
