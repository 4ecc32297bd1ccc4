//! What an answer costs in a long run, as a ratio to one in a short run; what it costs to read a long run back, as a
//! ratio to reading, parsing and hashing the same bytes plainly; and what an event of a long run costs in its record and
//! in its status, as a ratio to one of a short run.
//!
//! `cargo bench --bench long`; the ratios, not the times, can be compared between machines.
#![allow(
    clippy::disallowed_methods,
    clippy::print_stdout,
    reason = "a bench reads the clock, reads plainly, and prints"
)]

mod drive;

#[path = "table.rs"]
mod table;

use std::error::Error;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use bayhand::journal::{RunId, Runs};
use bayhand::record::{self, Kept};
use bayhand::session::StoredRun;
use bayhand::system::System;
use drive::{Drive, LOG, start, stored};
use jiff::ZonedDateTime;
use sha2::{Digest as _, Sha256};
use table::{ratio, row};

const LENGTHS: [u64; 3] = [1_000, 10_000, 100_000];

fn main() -> Result<(), Box<dyn Error>> {
    let folder = tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR"))?;
    let folder = folder.path();
    let now: ZonedDateTime = "2026-11-21T18:30:00+00:00[+00:00]".parse()?;
    answers(folder, &now)?;
    let runs = Runs::new(&System::real(), folder);
    let stored: Vec<(u64, RunId)> = LENGTHS
        .iter()
        .map(|events| Ok((*events, stored(folder, *events, &now)?)))
        .collect::<Result<_, Box<dyn Error>>>()?;
    for (events, id) in &stored {
        resumed(&runs, id, *events)?;
    }
    linear("record", &stored, |id| recorded(&runs, id))?;
    linear("status --json", &stored, |id| told(folder, id))
}

fn answers(folder: &Path, now: &ZonedDateTime) -> Result<(), Box<dyn Error>> {
    let begin = |formula: &str| -> Result<Drive, Box<dyn Error>> {
        Ok(Drive::begin(&start(folder, &LOG.replace("2 * v", formula), now)?, now))
    };
    answer_costs("an answer", begin("2 * v")?, 100_000);
    answer_costs("an answer that goes over the last three passes", begin("spread(v, last = 3)")?, 100_000);
    answer_costs("an answer that goes over all passes", begin("mean(v)")?, 1_000);
    let mut corrected = begin("2 * v")?;
    corrected.correct();
    answer_costs("an answer after a correction", corrected, 1_000);
    Ok(())
}

fn answer_costs(what: &str, mut drive: Drive, events: u64) {
    drive.to(100);
    let short = drive.answer_costs();
    drive.to(events);
    let long = drive.answer_costs();
    row(&format!("{what}, after {events} events / after 100"), &ratio(long, short), "");
}

/// Reading a run back, beside what its bytes cost plainly.
fn resumed(runs: &Runs, id: &RunId, events: u64) -> Result<(), Box<dyn Error>> {
    let path = runs.folder(id).join("journal.jsonl");
    StoredRun::read(runs, id).map_err(|why| why.to_string())?;
    let ours = fastest(|| drop(StoredRun::read(runs, id)));
    let plain = fastest(|| plainly(&path));
    row(&format!("resume of {events} events / read, parse, hash"), &ratio(ours, plain), "2.5");
    row("(ours; plain)", &format!("{ours:.2?}; {plain:.2?}"), "");
    Ok(())
}

fn plainly(path: &Path) {
    let text = std::fs::read_to_string(path).unwrap_or_default();
    for line in text.lines() {
        let _ = std::hint::black_box(serde_json::from_str::<serde_json::Value>(line));
        std::hint::black_box(Sha256::digest(line.as_bytes()));
    }
}

/// What an event costs at each length, beside one of the shortest run.
fn linear(
    what: &str,
    stored: &[(u64, RunId)],
    work: impl Fn(&RunId) -> Result<Duration, Box<dyn Error>>,
) -> Result<(), Box<dyn Error>> {
    let mut first = None;
    for (events, id) in stored {
        let took = work(id)?;
        let each = took.as_secs_f64() / f64::from(u32::try_from(*events)?);
        let ratio = each / *first.get_or_insert(each);
        row(&format!("{what} of {events} events, each / each of 1,000"), &format!("{ratio:.2}"), "");
    }
    Ok(())
}

/// The record of a run that was read, as data and as text.
fn recorded(runs: &Runs, id: &RunId) -> Result<Duration, Box<dyn Error>> {
    let run = StoredRun::read(runs, id).map_err(|why| why.to_string())?;
    let started = Instant::now();
    let lines = run.lines();
    let kept = Kept { book: &run.book, events: &run.events, lines: &lines, pinned: &run.pinned };
    let record = record::build(&kept).map_err(|_| "something is open")?;
    std::hint::black_box((record::to_json(&record), record::text::render(&record, 80)));
    Ok(started.elapsed())
}

/// The whole command.
fn told(folder: &Path, id: &RunId) -> Result<Duration, Box<dyn Error>> {
    let started = Instant::now();
    let mut command = Command::new(env!("CARGO_BIN_EXE_bayhand"));
    command.args(["status", "--json", id.as_str(), "--data"]).arg(folder).stdout(Stdio::null());
    let ended = command.status()?;
    if ended.success() { Ok(started.elapsed()) } else { Err("status does not work".into()) }
}

fn fastest(mut work: impl FnMut()) -> Duration {
    let once = |_| {
        let started = Instant::now();
        work();
        started.elapsed()
    };
    (0..7).map(once).min().unwrap_or_default()
}
