//! What one durable event costs, as a ratio to the plainest durable write of the same bytes in the same run.
//!
//! `cargo bench --bench journal`; the ratio, not the time, can be compared between machines.
#![allow(
    clippy::disallowed_methods,
    clippy::print_stdout,
    reason = "a bench reads the clock, writes plainly, and prints"
)]

#[path = "spread.rs"]
mod spread;
#[path = "table.rs"]
mod table;

use std::error::Error;
use std::fs::{File, OpenOptions};
use std::io::Write;
use std::time::{Duration, Instant};

use bayhand::journal::Journal;
use bayhand::system::System;
use spread::within;
use table::{ratio, row};

const EVENTS: usize = 1_000;

fn main() -> Result<(), Box<dyn Error>> {
    let folder = tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR"))?;
    let system = System::real();
    let mut journal = Journal::create(&system, folder.path())?;
    let mut plain = OpenOptions::new().append(true).create_new(true).open(folder.path().join("plain"))?;
    let event = serde_json::json!({"kind": "reading", "name": "caught", "text": "1.00 qt", "unit": "qt"});
    let (mut ours, mut plainest) = (Vec::new(), Vec::new());
    // By turns, so that whatever else the disk does meets both alike.
    for _ in 0..EVENTS {
        let started = Instant::now();
        let now = system.now();
        journal.append(&now, &event)?;
        ours.push(started.elapsed());
        plainest.push(plainly(&mut plain)?);
    }
    let (half, plain) = (within(50, &mut ours), within(50, &mut plainest));
    row("an entry of the journal / append and sync, on disk", &ratio(half, plain), "");
    row("(half of the entries within; 99 of 100)", &format!("{half:.2?}; {:.2?}", within(99, &mut ours)), "");
    Ok(())
}

/// As many bytes as the event above takes as a line.
fn plainly(file: &mut File) -> Result<Duration, std::io::Error> {
    const LINE: [u8; 210] = [b'x'; 210];
    let started = Instant::now();
    file.write_all(&LINE)?;
    file.sync_data()?;
    Ok(started.elapsed())
}
