//! Run folders: names, pinned texts, listing.

use std::fs;

use bayhand::catalogue::Catalogue;
use bayhand::journal::{Journal, JournalError, Pinned, RunId, Runs};
use bayhand::system::scripted::Fault;

use super::support::{Bench, patiently};

fn pinned() -> Pinned {
    Pinned {
        procedure: "# Flush\r\n\n1. Catch [caught].\n".to_owned(),
        linked: vec!["# Linked\n".to_owned()],
        vehicle: Some("format = 1\n".to_owned()),
    }
}

fn runs(bench: &Bench) -> Runs {
    Runs::new(&bench.system, bench.path())
}

fn begin(runs: &Runs, bench: &Bench, procedure: &str) -> Result<(RunId, Journal), JournalError> {
    begin_with(runs, bench, procedure, &pinned())
}

fn begin_with(
    runs: &Runs,
    bench: &Bench,
    procedure: &str,
    pinned: &Pinned,
) -> Result<(RunId, Journal), JournalError> {
    let first = |id: &RunId| Ok::<_, JournalError>(serde_json::json!({"run": id.as_str()}));
    let (id, journal, contents) = patiently(|| runs.begin(procedure, &bench.system.now(), pinned, first))?;
    assert_eq!(contents.lines.len(), 1);
    assert!(contents.text.contains(&format!("{{\"run\":\"{id}\"}}")), "the first event knows the name");
    Ok((id, journal))
}

#[test]
fn runs_of_a_day_are_numbered() {
    let bench = Bench::new();
    let runs = runs(&bench);
    let names: Vec<String> =
        (0..3).map(|_| begin(&runs, &bench, "cooler-line-flush").unwrap().0.to_string()).collect();
    assert_eq!(
        names,
        ["2026-11-21-cooler-line-flush", "2026-11-21-cooler-line-flush-2", "2026-11-21-cooler-line-flush-3"]
    );
}

#[test]
fn the_date_of_a_name_is_the_local_one() {
    let bench = Bench::new();
    // Half past midnight in Berlin is still the day before in UTC.
    bench.clock.set("2026-11-22T00:30:00+01:00[Europe/Berlin]".parse().unwrap());
    let (id, _) = begin(&runs(&bench), &bench, "flush").unwrap();
    assert_eq!(id.as_str(), "2026-11-22-flush");
}

#[test]
fn any_name_of_a_procedure_makes_a_safe_folder() {
    let long = "x".repeat(500);
    for (procedure, name) in [
        ("Cooler line, flush.", "2026-11-21-cooler-line-flush"),
        ("../../etc", "2026-11-21-etc"),
        ("Öl & Filter", "2026-11-21-l-filter"),
        ("", "2026-11-21-run"),
        ("///", "2026-11-21-run-2"),
        (&long, &format!("2026-11-21-{}", "x".repeat(60))),
    ] {
        let bench = Bench::new();
        let runs = runs(&bench);
        if procedure == "///" {
            begin(&runs, &bench, "").unwrap();
        }
        let (id, _) = begin(&runs, &bench, procedure).unwrap();
        assert_eq!(id.as_str(), name);
        assert_eq!(RunId::parse(name).unwrap(), id);
        assert!(bench.path().join("runs").join(name).is_dir());
    }
}

#[test]
fn a_text_that_is_not_a_run_is_refused() {
    for text in ["", "..", "../runs", "2026-11-21/x", "flush", "2026-13-01-flush", "2026-11-21-Flush"] {
        let error = RunId::parse(text).unwrap_err();
        assert!(matches!(&error, JournalError::NotARun { .. }));
        assert!(error.to_string().contains("`bayhand runs` lists the runs"), "{error}");
    }
}

#[test]
fn pinned_texts_are_the_exact_bytes() {
    let bench = Bench::new();
    let runs = runs(&bench);
    let (id, _) = begin(&runs, &bench, "flush").unwrap();
    assert_eq!(runs.pinned(&id).unwrap(), pinned());
    let bytes = fs::read(runs.folder(&id).join("procedure.md")).unwrap();
    assert_eq!(bytes, pinned().procedure.as_bytes());
    let bare = Pinned { vehicle: None, ..pinned() };
    let (id, _) = begin_with(&runs, &bench, "flush", &bare).unwrap();
    assert_eq!(runs.pinned(&id).unwrap(), bare);
}

#[test]
fn a_listing_reports_what_is_damaged_and_shows_the_rest() {
    let bench = Bench::new();
    let runs = runs(&bench);
    for name in ["flush", "filter", "seals"] {
        let (_, mut journal) = begin(&runs, &bench, name).unwrap();
        bench.append(&mut journal, "1 qt").unwrap();
        bench.append(&mut journal, "2 qt").unwrap();
    }
    let folder = bench.path().join("runs");
    fs::write(folder.join("2026-11-21-filter/journal.jsonl"), "no journal\n").unwrap();
    fs::create_dir(folder.join("2026-11-20-nothing")).unwrap();
    fs::create_dir(folder.join("Old Runs")).unwrap();
    fs::create_dir(folder.join(".hidden")).unwrap();
    fs::write(folder.join("a-note.txt"), "bolts in the blue tray").unwrap();
    let listing = Catalogue::read(&runs).unwrap();
    let names: Vec<&str> = listing.others.iter().map(|(id, _)| id.as_str()).collect();
    assert_eq!(names, ["2026-11-21-flush", "2026-11-21-seals"]);
    let broken: Vec<&str> = listing.broken.iter().map(|broken| broken.name.as_str()).collect();
    assert_eq!(broken, ["2026-11-20-nothing", "2026-11-21-filter", "Old Runs"]);
    assert!(matches!(listing.broken[1].error, JournalError::Damaged { line: 1, .. }));
}

#[test]
fn no_data_folder_yet_is_no_runs() {
    let bench = Bench::new();
    let listing = Catalogue::read(&Runs::new(&bench.system, &bench.path().join("not/there"))).unwrap();
    assert!(listing.closed.is_empty() && listing.others.is_empty() && listing.broken.is_empty());
    assert!(!bench.path().join("not").exists());
}

#[test]
fn a_start_that_fails_leaves_nothing_behind() {
    let bench = Bench::new();
    for room in [0, 10, 30, 45] {
        bench.disk.inject(Fault::FullAfter(room));
        let error = begin(&runs(&bench), &bench, "flush").unwrap_err();
        assert!(error.to_string().contains("free some space"), "{error}");
        assert_eq!(fs::read_dir(bench.path().join("runs")).unwrap().count(), 0);
    }
    bench.disk.heal();
    let (id, _) = begin(&runs(&bench), &bench, "flush").unwrap();
    assert_eq!(id.as_str(), "2026-11-21-flush");
}

#[test]
fn a_run_is_gone_on_with_where_it_stopped() {
    let bench = Bench::new();
    let runs = runs(&bench);
    let (id, mut journal) = begin(&runs, &bench, "flush").unwrap();
    bench.append(&mut journal, "1 qt").unwrap();
    drop(journal);
    let (mut journal, contents) = patiently(|| runs.open(&id)).unwrap();
    assert_eq!(contents.lines.len(), 2);
    assert_eq!(bench.append(&mut journal, "2 qt").unwrap(), 3);
    assert_eq!(runs.read(&id).unwrap().lines.len(), 3);
}
