//! What it costs to verify a thousand records, each entry proved and each value worked out again, as a ratio to reading,
//! parsing and hashing their bytes plainly; on one core.
//!
//! `cargo bench --bench verify`; the ratio, not the times, can be compared between machines.
#![allow(
    clippy::disallowed_methods,
    clippy::print_stdout,
    reason = "a bench reads the clock, reads plainly, and prints"
)]

#[path = "table.rs"]
mod table;

use std::error::Error;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use bayhand::cli::proved_with;
use bayhand::journal::{Digest, Pinned};
use bayhand::record::{self, Kept};
use bayhand::session::{Books, carried};
use bayhand::system::System;
use sha2::{Digest as _, Sha256};
use table::{ratio, row};

const RECORDS: usize = 1_000;
const ROUNDS: usize = 3;
/// What the records are of: two shipped procedures, a short one and a long one.
const OF: [&str; 2] = ["raise-and-support", "engagement-check"];

fn main() -> Result<(), Box<dyn Error>> {
    for procedure in OF {
        let folder = tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR"))?;
        let (entries, files) = records(folder.path(), procedure)?;
        let ours = fastest(|| proved(&files));
        let plain = fastest(|| plainly(&files));
        let (ours, plain) = (ours?, plain?);
        let measure = format!("verify 1,000 records of {entries} entries / read, parse, hash, one core");
        row(&measure, &ratio(ours, plain), "3");
        row("(ours; plain)", &format!("{ours:.2?}; {plain:.2?}"), "");
    }
    Ok(())
}

fn fastest(mut work: impl FnMut() -> Result<Duration, Box<dyn Error>>) -> Result<Duration, Box<dyn Error>> {
    let mut best = Duration::MAX;
    for _ in 0..ROUNDS {
        best = best.min(work()?);
    }
    Ok(best)
}

fn proved(files: &[PathBuf]) -> Result<Duration, Box<dyn Error>> {
    let (system, mut books) = (System::real(), Books::default());
    let began = Instant::now();
    for file in files {
        let proved = proved_with(&system, file, None, &mut books);
        std::hint::black_box(proved).map_err(|faults| faults[0].to_string())?;
    }
    Ok(began.elapsed())
}

fn plainly(files: &[PathBuf]) -> Result<Duration, Box<dyn Error>> {
    let began = Instant::now();
    for file in files {
        let bytes = std::fs::read(file)?;
        std::hint::black_box(serde_json::from_slice::<serde_json::Value>(&bytes)?);
        std::hint::black_box(Sha256::digest(&bytes));
    }
    Ok(began.elapsed())
}

/// Records of runs that differ in their names, and so in every link of their chains and in their seals.
fn records(folder: &Path, procedure: &str) -> Result<(usize, Vec<PathBuf>), Box<dyn Error>> {
    let run = answered(folder, procedure)?;
    let journal = std::fs::read_to_string(run.join("journal.jsonl"))?;
    let pinned = Pinned::read(&System::real(), &run).map_err(|error| error.to_string())?;
    let name = run.file_name().ok_or("it has no name")?.to_string_lossy().into_owned();
    let mut books = Books::default();
    let mut file = |number: usize| -> Result<PathBuf, Box<dyn Error>> {
        let lines = renamed(&journal, &name, &format!("{name}-{}", number + 2));
        let run = carried(&lines, &pinned, &mut books).map_err(|why| why.to_string())?;
        let kept = Kept { book: &run.book, events: &run.events, lines: &lines, pinned: &pinned };
        let record = record::build(&kept).map_err(|_| "something is open")?;
        let path = folder.join(format!("{number}.json"));
        std::fs::write(&path, record::to_json(&record))?;
        Ok(path)
    };
    let files = (0..RECORDS).map(&mut file).collect::<Result<_, _>>()?;
    Ok((journal.lines().count(), files))
}

/// The folder of a run of a shipped procedure, answered from its file.
fn answered(folder: &Path, procedure: &str) -> Result<PathBuf, Box<dyn Error>> {
    let shipped = Path::new(env!("CARGO_MANIFEST_DIR")).join("procedures");
    let data = folder.join("data");
    let mut command = Command::new(env!("CARGO_BIN_EXE_bayhand"));
    command.arg("--data").arg(&data).arg("run").arg(shipped.join(format!("{procedure}.md")));
    command.arg("--vehicle").arg(shipped.join("vehicle-example.toml"));
    command.arg("--answers").arg(shipped.join(format!("answers/{procedure}.toml")));
    let said = command.stdout(Stdio::null()).output()?;
    if !said.status.success() {
        return Err(String::from_utf8_lossy(&said.stderr).into_owned().into());
    }
    let run =
        std::fs::read_dir(data.join("runs"))?.filter_map(Result::ok).find(|entry| entry.path().is_dir());
    Ok(run.ok_or("there is no run")?.path())
}

/// The same lines of a run of another name, chained anew.
fn renamed(journal: &str, name: &str, other: &str) -> Vec<String> {
    let mut before = Digest::of(b"");
    let mut lines = Vec::new();
    for line in journal.lines() {
        let (start, rest) = line.split_once("\"prev\":\"").unwrap_or((line, ""));
        let rest = rest.get(64..).unwrap_or_default();
        let line = format!("{start}\"prev\":\"{before}{rest}").replace(name, other);
        before = Digest::of(format!("{line}\n").as_bytes());
        lines.push(line);
    }
    lines
}
