//! How long it takes to the first question with a thousand closed runs in the folder, as a ratio to none.
//!
//! `cargo bench --bench first`; the ratio, not the times, can be compared between machines.
#![allow(
    clippy::disallowed_methods,
    clippy::print_stdout,
    reason = "a bench reads the clock, starts the program, and prints"
)]

#[path = "table.rs"]
mod table;

use std::error::Error;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

use bayhand::journal::{Pinned, Runs};
use bayhand::run::{Answer, Book, Input, InterruptionAnswer};
use bayhand::session::LiveRun;
use bayhand::source::SourceText;
use bayhand::system::System;
use bayhand::{procedure, vehicle};
use table::{ratio, row};

const RUNS: usize = 1_000;
const ROUNDS: usize = 20;
/// The day of the closed runs.
const DAY: &str = "2026-10-12";
const PROCEDURE: &str = "+++\nformat = 1\nrevision = \"A\"\ndate = 2026-11-25\nauthor = \"a bench\"\nscope = \"any\"\nlevel_of_use = \"continuous\"\n\
tools = \"none\"\nmaterials = \"none\"\nparts = \"none\"\nrequired = \"none\"\nclose_up = \"none\"\nhazards = \"none\"\n[roles]\nlead = \"works\"\n+++\n\
# Wipe\n\n1. Wipe.\n";

fn main() -> Result<(), Box<dyn Error>> {
    let folder = tempfile::tempdir()?;
    let file = folder.path().join("wipe.md");
    std::fs::write(&file, PROCEDURE)?;
    let (none, many) = (folder.path().join("none"), folder.path().join("many"));
    for _ in 0..RUNS {
        closed(&many)?;
    }
    // The first command after a run was closed puts it into the index.
    let anew = first_question(&many, &file)?;
    let (without, with) = (fastest(&none, &file)?, fastest(&many, &file)?);
    row("first question with 1,000 closed runs / with none", &ratio(with, without), "1.5");
    row(
        "(with none; with 1,000; once, when the index is made anew)",
        &format!("{without:.2?}; {with:.2?}; {anew:.0?}"),
        "",
    );
    Ok(())
}

fn closed(data: &Path) -> Result<(), Box<dyn Error>> {
    let text = SourceText::new("wipe.md", PROCEDURE.to_owned());
    let procedure = procedure::read(&text, "wipe").value.ok_or("it does not check")?;
    let sheet = vehicle::read(&SourceText::new("none", String::new())).value;
    let (pinned, book) = (Pinned::of(&procedure, None), Book::new(procedure, sheet));
    let now = "2026-10-12T18:00:00+00:00[+00:00]".parse()?;
    let runs = Runs::new(&System::real(), data);
    let mut live = LiveRun::start(&runs, book, pinned, None, &now).map_err(|_| "it does not start")?;
    let answers = [
        Answer::Person("Robin Vale".to_owned()),
        Answer::Interruption(InterruptionAnswer::True),
        Answer::Done,
        Answer::Close,
    ];
    for answer in answers {
        live.take(Input::Answer(answer), &now).map_err(|_| "an answer is not taken")?;
    }
    Ok(())
}

fn fastest(data: &Path, file: &Path) -> Result<Duration, Box<dyn Error>> {
    let mut best = Duration::MAX;
    for _ in 0..ROUNDS {
        best = best.min(first_question(data, file)?);
    }
    Ok(best)
}

/// Asks its first question, hears that nobody is there, and is gone; the run that it began is taken away again.
fn first_question(data: &Path, file: &Path) -> Result<Duration, Box<dyn Error>> {
    let mut command = Command::new(env!("CARGO_BIN_EXE_bayhand"));
    command.arg("--plain").arg("--data").arg(data).arg("run").arg(file).stdin(Stdio::null());
    let began = Instant::now();
    let said = command.output()?;
    let took = began.elapsed();
    if !String::from_utf8_lossy(&said.stdout).contains("Name of the lead") {
        return Err(String::from_utf8_lossy(&said.stderr).into_owned().into());
    }
    for entry in std::fs::read_dir(data.join("runs"))? {
        let path = entry?.path();
        let is_own = path.is_dir() && !path.to_string_lossy().contains(DAY);
        if is_own {
            std::fs::remove_dir_all(path)?;
        }
    }
    Ok(took)
}
