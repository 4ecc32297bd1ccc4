//! What a whole answer costs, from a typed line to the next question on the screen, as a ratio to appending as many bytes
//! to a file on the same disk and waiting until they are durable.
//!
//! `cargo bench --bench answer`; the ratio, not the times, can be compared between machines.
#![allow(
    clippy::disallowed_methods,
    clippy::print_stdout,
    reason = "a bench reads the clock, starts the program, and prints"
)]

#[path = "spread.rs"]
mod spread;
#[path = "table.rs"]
mod table;

use spread::within;
use std::error::Error;
use std::fmt::Write as _;
use std::fs::{File, OpenOptions};
use std::io::{BufRead, BufReader, Write};
use std::path::Path;
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};
use std::time::{Duration, Instant};
use table::{ratio, row};

const ANSWERS: usize = 400;
/// The last row of each question.
const ASKED: &str = "in V:";

fn main() -> Result<(), Box<dyn Error>> {
    let folder = tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR"))?;
    let file = folder.path().join("many.md");
    std::fs::write(&file, procedure()?)?;
    let mut talk = Talk::begin(folder.path(), &file)?;
    let mut plain = OpenOptions::new().append(true).create_new(true).open(folder.path().join("plain"))?;
    let line = vec![b'x'; line_length(folder.path())?];
    let (mut ours, mut plainest) = (Vec::new(), Vec::new());
    // By turns, so that whatever else the disk does meets both alike.
    for _ in 0..ANSWERS {
        ours.push(talk.answer("12.4 V")?);
        plainest.push(plainly(&mut plain, &line)?);
    }
    talk.end()?;
    let (ours, plainest) = (within(50, &mut ours), within(50, &mut plainest));
    row("a whole answer, 400 steps / append and sync, on disk", &ratio(ours, plainest), "1.15");
    let more = ours.saturating_sub(plainest);
    row(
        "(half of the answers within; half of the syncs within; apart)",
        &format!("{ours:.2?}; {plainest:.2?}; {more:.2?}"),
        "",
    );
    Ok(())
}

/// As many readings as there are answers, and one more.
fn procedure() -> Result<String, std::fmt::Error> {
    let mut front =
        "+++\nformat = 1\nrevision = \"A\"\ndate = 2026-11-01\nauthor = \"a bench\"\nscope = \"any\"\n\
level_of_use = \"continuous\"\ntools = \"none\"\nmaterials = \"none\"\nparts = \"none\"\nhazards = \"none\"\n\
required = \"none\"\nclose_up = \"none\"\n[roles]\nlead = \"does it\"\n"
            .to_owned();
    let mut body = "+++\n\n# Many\n\n## All\n\n".to_owned();
    for number in 1..=ANSWERS + 2 {
        write!(front, "[readings.v{number}]\nwhat = \"voltage {number}\"\nunit = \"V\"\nmin = \"10 V\"\n")?;
        writeln!(body, "{number}. Read [v{number}].")?;
    }
    Ok(front + &body)
}

/// The program at a pipe.
struct Talk {
    child: Child,
    to: ChildStdin,
    from: BufReader<ChildStdout>,
}

impl Talk {
    /// Goes on to the first reading.
    fn begin(folder: &Path, file: &Path) -> Result<Self, Box<dyn Error>> {
        let mut command = Command::new(env!("CARGO_BIN_EXE_bayhand"));
        command.arg("--plain").arg("--data").arg(folder.join("data")).arg("run").arg(file);
        let mut child = command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::null()).spawn()?;
        let to = child.stdin.take().ok_or("no way in")?;
        let from = BufReader::new(child.stdout.take().ok_or("no way out")?);
        let mut talk = Self { child, to, from };
        talk.to.write_all(b"Robin Vale\ny\n")?;
        talk.until_asked()?;
        talk.answer("12.4 V")?;
        Ok(talk)
    }

    fn answer(&mut self, text: &str) -> Result<Duration, Box<dyn Error>> {
        let line = format!("{text}\n");
        let began = Instant::now();
        self.to.write_all(line.as_bytes())?;
        self.until_asked()?;
        Ok(began.elapsed())
    }

    fn until_asked(&mut self) -> Result<(), Box<dyn Error>> {
        let mut line = String::new();
        while line.trim_end() != ASKED {
            line.clear();
            if self.from.read_line(&mut line)? == 0 {
                return Err("it ended before it asked".into());
            }
        }
        Ok(())
    }

    fn end(self) -> Result<(), Box<dyn Error>> {
        let Self { mut child, to, from } = self;
        drop((to, from));
        child.wait()?;
        Ok(())
    }
}

/// How long the line of an answer is.
fn line_length(folder: &Path) -> Result<usize, Box<dyn Error>> {
    let run = std::fs::read_dir(folder.join("data/runs"))?.next().ok_or("there is no run")??;
    let journal = std::fs::read_to_string(run.path().join("journal.jsonl"))?;
    Ok(journal.lines().last().map_or(0, |line| line.len() + 1))
}

fn plainly(file: &mut File, line: &[u8]) -> Result<Duration, std::io::Error> {
    let started = Instant::now();
    file.write_all(line)?;
    file.sync_data()?;
    Ok(started.elapsed())
}
