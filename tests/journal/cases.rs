//! Journals as files, each with what is to be read in it. Run with `BAYHAND_UPDATE=1` to write the expectations anew.

use std::fmt::Write;
use std::fs;
use std::path::{Path, PathBuf};

use bayhand::journal::{Contents, Journal};

use super::support::Bench;

fn cases() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases/journal/files");
    let entries = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let mut cases: Vec<PathBuf> =
        entries.filter(|path| path.extension().is_some_and(|extension| extension == "jsonl")).collect();
    cases.sort();
    cases
}

fn told(case: &Path) -> String {
    let bench = Bench::new();
    bench.put(&fs::read(case).unwrap());
    match Journal::read(&bench.system, bench.path()) {
        Ok(contents) => summary(&contents),
        Err(error) => {
            let file = bench.file().display().to_string();
            format!("{error}\n").replace(&file, "journal.jsonl")
        }
    }
}

fn summary(contents: &Contents) -> String {
    let mut text = String::new();
    for line in &contents.lines {
        let back = line.clock_back.map(|back| format!(", clock back by {back:#}")).unwrap_or_default();
        let event = contents.typed::<serde_json::Value>(line).unwrap().event;
        writeln!(text, "{} at {}{back}: {event}", line.seq, line.time).unwrap();
    }
    if let Some(torn) = &contents.torn {
        writeln!(text, "torn in line {}: {} bytes", torn.line, torn.bytes.len()).unwrap();
    }
    text + &format!("head {} {}\n", contents.head.seq, contents.head.digest)
}

#[test]
fn every_journal_reads_as_its_expectation_says() {
    let cases = cases();
    assert!(cases.len() >= 10, "the cases are not where they should be");
    for case in cases {
        let told = told(&case);
        let expectation = case.with_extension("txt");
        if std::env::var_os("BAYHAND_UPDATE").is_some() {
            fs::write(&expectation, &told).unwrap();
        }
        let expected = fs::read_to_string(&expectation).unwrap_or_default();
        assert_eq!(told, expected, "{}", case.display());
    }
}
