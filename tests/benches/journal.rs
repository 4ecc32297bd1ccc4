//! What one durable event costs, as a ratio to the plainest durable write of the same bytes in the same run.
//!
//! `cargo bench --bench journal`; the ratio, not the time, can be compared between machines.
#![allow(
    clippy::disallowed_methods,
    clippy::print_stdout,
    reason = "a bench reads the clock, writes plainly, and prints"
)]

#[path = "table.rs"]
mod table;

use std::error::Error;
use std::fs::{File, OpenOptions};
use std::io::Write;
use std::time::{Duration, Instant};

use bayhand::journal::Journal;
use bayhand::system::System;
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
    let (ours, plainest) = (spread(ours), spread(plainest));
    row("an entry of the journal / append and sync, on disk", &ratio(ours.0, plainest.0), "");
    row("(half of the entries within; 99 of 100)", &format!("{:.2?}; {:.2?}", ours.0, ours.1), "");
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

/// The median and the 99th percentile.
fn spread(mut times: Vec<Duration>) -> (Duration, Duration) {
    times.sort();
    (times[times.len() / 2], times[times.len() * 99 / 100])
}
