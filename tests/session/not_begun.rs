//! Starts that were killed: nothing is left of them that looks like a run, and what earlier versions left is swept.

use std::fs;
use std::path::Path;
use std::time::Duration;

use super::stage::{Stage, words_of};

const RUN: [&str; 4] = ["run", "bleed.md", "--vehicle", "vehicle.toml"];

/// What lies in the folder of the runs, sorted.
fn names(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).into_iter().flatten().flatten();
    let mut names: Vec<String> =
        entries.map(|entry| entry.file_name().to_string_lossy().into_owned()).collect();
    names.sort();
    names
}

fn put(folder: &Path, files: &[(&str, &str)]) {
    fs::create_dir_all(folder).expect("a folder");
    for (name, text) in files {
        fs::write(folder.join(name), text).expect("a file");
    }
}

#[test]
fn what_earlier_versions_left_of_a_start_is_set_aside_and_said_to_be_nothing() {
    let stage = Stage::with_small_procedure();
    let runs = stage.data().join("runs");
    let torn = "{\"format\":1,\"seq\":1,\"time\":\"2026-11-2";
    let left: [(&str, &[(&str, &str)]); 5] = [
        ("2026-11-20-bleed", &[]),
        ("2026-11-20-bleed-2", &[("procedure.md", "# Bleed\n"), (".tmpAbC123", "format")]),
        ("2026-11-20-bleed-3", &[("procedure.md", "# Bleed\n"), ("vehicle.toml", ""), ("journal.lock", "")]),
        ("2026-11-20-bleed-4", &[("procedure.md", ""), ("journal.lock", ""), ("journal.jsonl", "")]),
        ("2026-11-20-bleed-5", &[("procedure.md", ""), ("journal.lock", ""), ("journal.jsonl", torn)]),
    ];
    for (name, files) in left {
        put(&runs.join(name), files);
    }
    let ended = stage.bayhand_fed(&RUN, "Robin Vale\n");
    assert_eq!(ended.code, Some(5), "{}", ended.err);
    let said = words_of(&ended.err);
    for (name, _) in left {
        let words = format!("a start of {name} ended before its first entry, so that nothing is lost;");
        assert!(said.contains(&words), "{name}: {said}");
    }
    assert_eq!(names(&runs.join(".not-begun")), left.map(|(name, _)| name));
    assert!(runs.join(".not-begun/2026-11-20-bleed-5/journal.jsonl").exists(), "nothing is thrown away");
    assert!(!words_of(&stage.bayhand(&["runs"]).out).contains("2026-11-20"));
    let again = stage.bayhand(&["run", "bleed.md"]);
    assert!(!again.err.contains("nothing is lost"), "it is said once: {}", again.err);
}

/// Where anything else lies, or entries may have been acknowledged, everything stays and is said as before.
#[test]
fn what_may_have_been_a_run_stays_where_it_is() {
    let stage = Stage::with_small_procedure();
    let runs = stage.data().join("runs");
    let whole = "{\"format\":1,\"seq\":1}\n";
    let left: [(&str, &[(&str, &str)]); 3] = [
        ("2026-11-20-bleed", &[("procedure.md", ""), ("record.json", "{}")]),
        ("2026-11-20-bleed-2", &[("procedure.md", ""), ("journal.lock", ""), ("journal.jsonl", whole)]),
        ("2026-11-20-bleed-3", &[("procedure.md", ""), ("a note.txt", "bolts in the blue tray")]),
    ];
    for (name, files) in left {
        put(&runs.join(name), files);
    }
    put(&runs.join("2026-11-20-bleed-4/files"), &[("photo.jpg", "not really")]);
    let ended = stage.bayhand_fed(&[&RUN[..], &["--new"]].concat(), "Robin Vale\n");
    assert_eq!(ended.code, Some(5), "{}", ended.err);
    assert!(!ended.err.contains("nothing is lost"), "{}", ended.err);
    assert_eq!(names(&runs).len(), 5, "{:?}", names(&runs));
}

#[test]
fn a_start_that_was_killed_is_cleared_away_and_one_that_lives_is_not() {
    let stage = Stage::with_small_procedure();
    let runs = stage.data().join("runs");
    put(&runs.join(".being-made-1-1"), &[]);
    put(
        &runs.join(".being-made-2-1"),
        &[("journal.lock", ""), ("procedure.md", ""), ("journal.jsonl", "{}\n")],
    );
    put(&runs.join(".being-made-3-1"), &[("journal.lock", ""), ("procedure.md", "")]);
    put(&runs.join(".going-4-1"), &[("procedure.md", "")]);
    put(&runs, &[(".tmpAbC123", "closed runs")]);
    let alive =
        fs::File::options().write(true).open(runs.join(".being-made-3-1/journal.lock")).expect("a lock");
    alive.lock().expect("it is free");
    let ended = stage.bayhand_fed(&RUN, "Robin Vale\n");
    assert_eq!((ended.code, ended.err.contains("nothing is lost")), (Some(5), false), "{}", ended.err);
    let names = names(&runs);
    assert_eq!(names.len(), 2, "{names:?}");
    assert_eq!(names[0], ".being-made-3-1");
}

/// More kills: `BAYHAND_TEST_KILLS=1000`.
#[test]
fn a_process_killed_while_it_starts_leaves_no_half_run() {
    let kills =
        std::env::var("BAYHAND_TEST_KILLS").ok().and_then(|kills| kills.parse().ok()).unwrap_or(24_u64);
    let stage = Stage::with_small_procedure();
    let runs = stage.data().join("runs");
    let (mut begun, mut before) = (0, 0);
    // As long as a start takes on this machine, and a little more.
    let takes = {
        let whole = std::time::Instant::now();
        assert_eq!(Stage::with_small_procedure().bayhand(&RUN).code, Some(5));
        u64::try_from(whole.elapsed().as_micros()).expect("a short time")
    };
    for kill in 0..kills {
        let mut child = stage.piped(&[&RUN[..], &["--new"]].concat());
        std::thread::sleep(Duration::from_micros(kill * 1_027_939 % (takes * 5 / 4)));
        child.kill().expect("it is killed");
        child.wait().expect("it is gone");
        for name in names(&runs).iter().filter(|name| name.starts_with("20")) {
            let journal = fs::read_to_string(runs.join(name).join("journal.jsonl"));
            let journal = journal.unwrap_or_else(|why| panic!("{name} has no journal: {why}"));
            assert!(journal.contains('\n') && journal.contains("\"started\""), "{name}: {journal}");
        }
        let now = names(&runs).iter().filter(|name| name.starts_with("20")).count();
        begun += usize::from(now > before);
        before = now;
    }
    let ended = stage.bayhand_fed(&[&RUN[..], &["--new"]].concat(), "Robin Vale\n");
    assert_eq!((ended.code, ended.err.contains("nothing is lost")), (Some(5), false), "{}", ended.err);
    let names = names(&runs);
    assert!(names.iter().all(|name| name.starts_with("20")), "{names:?}");
    assert_eq!(names.len(), before + 1);
    println!("{kills} kills, {begun} of them after the run had begun; a start takes {takes} us");
}
