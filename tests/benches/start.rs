//! How long it takes to the first question of a new run, as a ratio to a program that says hello: on a disk, where a new
//! run waits until it is durable, and where a disk costs nothing.
//!
//! `cargo bench --bench start`; the ratios, not the times, can be compared between machines.
#![allow(
    clippy::disallowed_methods,
    clippy::print_stdout,
    reason = "a bench reads the clock, starts programs, and prints"
)]

#[path = "spread.rs"]
mod spread;
#[path = "table.rs"]
mod table;

use spread::within;
use std::error::Error;
use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};
use table::{ratio, row};

const ROUNDS: usize = 60;
/// A folder that no disk holds, where there is one.
const MEMORY: &str = "/dev/shm";
const PROCEDURE: &str = "+++\nformat = 1\nrevision = \"A\"\ndate = 2026-11-25\nauthor = \"a bench\"\nscope = \"any\"\nlevel_of_use = \"continuous\"\n\
tools = \"none\"\nmaterials = \"none\"\nparts = \"none\"\nrequired = \"none\"\nclose_up = \"none\"\nhazards = \"none\"\n[roles]\nlead = \"works\"\n+++\n\
# Wipe\n\n1. Wipe.\n";

fn main() -> Result<(), Box<dyn Error>> {
    let disk = tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR"))?;
    let hello = hello(disk.path())?;
    compared("on a disk", disk.path(), &hello)?;
    if Path::new(MEMORY).is_dir() {
        let memory = tempfile::tempdir_in(MEMORY)?;
        compared("in memory", memory.path(), &hello)?;
    }
    Ok(())
}

/// The shortest program there is, built as this one is.
fn hello(folder: &Path) -> Result<PathBuf, Box<dyn Error>> {
    let (source, built) = (folder.join("hello.rs"), folder.join("hello"));
    std::fs::write(&source, "fn main() {\n    println!(\"hello\");\n}\n")?;
    let rustc = std::env::var_os("RUSTC").unwrap_or_else(|| "rustc".into());
    let made = Command::new(rustc).arg("-O").arg(&source).arg("-o").arg(&built).status()?;
    if made.success() { Ok(built) } else { Err("the program that says hello is not built".into()) }
}

fn compared(what: &str, folder: &Path, hello: &Path) -> Result<(), Box<dyn Error>> {
    let (file, data) = (folder.join("wipe.md"), folder.join("data"));
    std::fs::write(&file, PROCEDURE)?;
    let (mut ours, mut plainest) = (Vec::new(), Vec::new());
    // By turns, so that whatever else the machine does meets both alike.
    for _ in 0..ROUNDS {
        plainest.push(until(&mut Command::new(hello), "hello")?);
        let mut command = Command::new(env!("CARGO_BIN_EXE_bayhand"));
        command.arg("--plain").arg("--data").arg(&data).arg("run").arg(&file);
        ours.push(until(&mut command, "Name of the lead")?);
        std::fs::remove_dir_all(&data)?;
    }
    let (ours, plainest) = (within(50, &mut ours), within(50, &mut plainest));
    row(&format!("first question of a new run, {what} / hello"), &ratio(ours, plainest), "3");
    row(
        "(half of the questions within; half of the hellos within)",
        &format!("{ours:.2?}; {plainest:.2?}"),
        "",
    );
    Ok(())
}

/// From the start of a program until it has said this; nobody answers it.
fn until(command: &mut Command, said: &str) -> Result<Duration, Box<dyn Error>> {
    let began = Instant::now();
    let mut child = command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::null()).spawn()?;
    let mut lines = BufReader::new(child.stdout.take().ok_or("no way out")?).lines();
    let is_said = lines.by_ref().any(|line| line.is_ok_and(|line| line.contains(said)));
    let took = began.elapsed();
    drop(child.stdin.take());
    lines.for_each(drop);
    child.wait()?;
    if is_said { Ok(took) } else { Err(format!("`{said}` was not said").into()) }
}
