//! What checking costs: a folder of procedures as a ratio to parsing the same bytes plainly, on one core and on two; how
//! the cost of one file grows with what is in it; and the most memory that it takes, as a ratio to the file.
//!
//! `cargo bench --bench check`; the ratios, not the times, can be compared between machines. It needs `taskset` (Debian:
//! util-linux) to keep a process on one core, and `/proc` to see its memory.
#![allow(
    clippy::disallowed_methods,
    clippy::print_stdout,
    clippy::cast_precision_loss,
    reason = "a bench reads the clock, starts the program, and prints"
)]

#[path = "check/inputs.rs"]
mod inputs;

#[path = "table.rs"]
mod table;

use std::error::Error;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use bayhand::procedure;
use bayhand::source::SourceText;
use table::{ratio, row};

type Outcome<T> = Result<T, Box<dyn Error>>;

/// How often a short measurement is taken; the fastest counts.
const ROUNDS: usize = 5;
/// The word with which the bench starts itself, to parse a folder plainly.
const PLAINLY: &str = "--plainly";

/// What a process took.
#[derive(Clone, Copy)]
struct Cost {
    time: Duration,
    /// The most memory that it had, in bytes.
    peak: usize,
}

fn main() -> Outcome<()> {
    let arguments: Vec<String> = std::env::args().collect();
    if let Some(at) = arguments.iter().position(|word| word == PLAINLY) {
        return plainly(Path::new(arguments.get(at + 1).ok_or("no folder")?));
    }
    let folder = tempfile::tempdir()?;
    folders(folder.path())?;
    growth();
    at_the_limit(folder.path())
}

/// A thousand files and ten thousand, against their bytes parsed plainly.
fn folders(root: &Path) -> Outcome<()> {
    let (thousand, many) = (root.join("1000"), root.join("10000"));
    inputs::folder(&thousand, 1_000)?;
    inputs::folder(&many, 10_000)?;
    let (mut bare, mut one, mut two) = (Duration::MAX, Duration::MAX, Duration::MAX);
    for _ in 0..ROUNDS {
        bare = bare.min(cost(on_one_core(&std::env::current_exe()?).arg(PLAINLY).arg(&thousand))?.time);
        one = one.min(cost(&mut checking(on_one_core(&bayhand()), &thousand))?.time);
        two = two.min(cost(&mut checking(Command::new(bayhand()), &thousand))?.time);
    }
    row("check 1,000 files / plain, one core", &ratio(one, bare), "3");
    row("check 1,000 files, two cores / plain, one core", &ratio(two, bare), "1.6");
    let Cost { time, peak } = cost(&mut checking(Command::new(bayhand()), &many))?;
    row("check 10,000 files / ten times 1,000", &ratio(time, two * 10), "1.05");
    row("check 10,000 files, peak memory", &format!("{} MB", peak / 1_000_000), "200 MB");
    row("(1,000 files: plain; one core; two)", &format!("{bare:.2?}; {one:.2?}; {two:.2?}"), "");
    row("(10,000 files)", &format!("{time:.1?}"), "");
    Ok(())
}

/// From a thousand of a thing in one file to a hundred thousand.
fn growth() {
    for (what, make) in inputs::KINDS {
        let (few, many) = (reading(&make(1_000)), reading(&make(100_000)));
        let exponent = (many.as_secs_f64() / few.as_secs_f64()).log(100.0);
        row(&format!("growth, 1e3 to 1e5 {what}"), &format!("{exponent:.2}"), "1.05");
    }
}

/// Files as large as are read.
fn at_the_limit(root: &Path) -> Outcome<()> {
    const MOST: usize = 8 << 20;
    let empty = of_one(root, &(inputs::KINDS[0].1)(1))?;
    for (what, make) in inputs::KINDS {
        let each = (make(20_000).len() - make(10_000).len()) / 10_000 + 1;
        let mut text = make(MOST / each);
        while text.len() > MOST {
            text = make(MOST / each * 15 / 16);
        }
        let Cost { time, peak } = of_one(root, &text)?;
        row(&format!("8 MiB of {what}"), &format!("{time:.2?}"), "");
        let memory = (peak.saturating_sub(empty.peak)) as f64 / text.len() as f64;
        row("- peak memory / file", &format!("{memory:.1}"), "12");
    }
    Ok(())
}

/// How long the check of a text takes, without the start of the program around it.
fn reading(text: &str) -> Duration {
    let text = SourceText::new("one.md", text);
    let rounds = if text.text().len() < 500_000 { 20 } else { 3 };
    let once = |_| {
        let began = Instant::now();
        drop(procedure::read(&text, "one"));
        began.elapsed()
    };
    (0..rounds).map(once).min().unwrap_or_default()
}

/// What the check of one text costs.
fn of_one(root: &Path, text: &str) -> Outcome<Cost> {
    let path = root.join("one.md");
    fs::write(&path, text)?;
    let rounds = if text.len() < 500_000 { ROUNDS } else { 2 };
    let mut best = Cost { time: Duration::MAX, peak: usize::MAX };
    for _ in 0..rounds {
        let Cost { time, peak } = cost(&mut checking(Command::new(bayhand()), &path))?;
        best = Cost { time: best.time.min(time), peak: best.peak.min(peak) };
    }
    Ok(best)
}

fn bayhand() -> PathBuf {
    PathBuf::from(env!("CARGO_BIN_EXE_bayhand"))
}

fn checking(mut command: Command, what: &Path) -> Command {
    command.arg("--plain").arg("check").arg(what);
    command
}

fn on_one_core(program: &Path) -> Command {
    let mut command = Command::new("taskset");
    command.args(["-c", "0"]).arg(program);
    command
}

/// Runs it to its end; what it writes goes nowhere.
fn cost(command: &mut Command) -> Outcome<Cost> {
    command.stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null());
    let began = Instant::now();
    let mut child = command.spawn()?;
    let mut peak = 0;
    while child.try_wait()?.is_none() {
        peak = peak_of(&child).unwrap_or(peak).max(peak);
        std::thread::sleep(Duration::from_micros(200));
    }
    Ok(Cost { time: began.elapsed(), peak })
}

/// The most memory that a process has had so far, in bytes.
fn peak_of(child: &Child) -> Option<usize> {
    let status = fs::read_to_string(format!("/proc/{}/status", child.id())).ok()?;
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"))?;
    Some(line.trim().strip_suffix(" kB")?.trim().parse::<usize>().ok()? * 1024)
}

/// Reads every procedure below a folder and parses its two halves, nothing else.
fn plainly(folder: &Path) -> Outcome<()> {
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() {
            plainly(&path)?;
            continue;
        }
        let text = fs::read_to_string(&path)?;
        let mut parts = text.splitn(3, "+++");
        let _ = toml::from_str::<toml::Table>(parts.nth(1).unwrap_or_default());
        pulldown_cmark::Parser::new(parts.next().unwrap_or_default()).into_offset_iter().for_each(drop);
    }
    Ok(())
}
