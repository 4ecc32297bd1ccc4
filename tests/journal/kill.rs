//! A process that is killed while it writes loses nothing that it had acknowledged.

use std::io::{BufRead, BufReader, Read, Write};
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use bayhand::journal::Journal;
use bayhand::system::System;
use serde_json::json;

use super::support::Bench;

/// Set to a folder in a child, which then writes there until it is killed.
const WRITE_IN: &str = "BAYHAND_TEST_WRITE_IN";
/// How many kills to try; 30 when not set.
const KILLS: &str = "BAYHAND_TEST_KILLS";

/// Appends events and says `kept N` for each that is acknowledged.
fn write_and_say(journal: &mut Journal, rounds: u64, out: &mut impl Write) {
    let system = System::real();
    for _ in 0..rounds {
        let number = journal.head().seq + 1;
        let text = "1.00 qt ".repeat(usize::try_from(number % 90).unwrap());
        let event = json!({"number": number, "text": text});
        let stamp = journal.append(&system.now(), &event).unwrap();
        writeln!(out, "kept {}", stamp.seq).unwrap();
        out.flush().unwrap();
    }
}

/// In a child of the tests below this is the writer; otherwise it shows that the writer says what it does.
#[test]
fn the_writer_says_what_it_has_kept() {
    if let Some(folder) = std::env::var_os(WRITE_IN) {
        let (mut journal, _) = Journal::open(&System::real(), folder.as_ref()).unwrap();
        write_and_say(&mut journal, u64::MAX, &mut std::io::stdout());
    }
    let bench = Bench::new();
    let mut said = Vec::new();
    write_and_say(&mut bench.create(), 3, &mut said);
    assert_eq!(said, b"kept 1\nkept 2\nkept 3\n");
    assert_eq!(bench.read().unwrap().lines.len(), 3);
}

/// A child that writes in a folder; ends with the test.
pub struct Writer {
    child: Child,
    said: BufReader<std::process::ChildStdout>,
}

impl Writer {
    pub fn start(bench: &Bench) -> Self {
        let mut child = Command::new(std::env::current_exe().unwrap())
            .args(["--exact", "journal::kill::the_writer_says_what_it_has_kept", "--nocapture"])
            .env(WRITE_IN, bench.path())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let said = BufReader::new(child.stdout.take().unwrap());
        Self { child, said }
    }

    pub fn id(&self) -> u32 {
        self.child.id()
    }

    /// Waits until it has said that an event is kept.
    pub fn first_kept(&mut self) -> u64 {
        loop {
            let mut line = String::new();
            assert!(self.said.read_line(&mut line).unwrap() > 0, "the writer ended");
            if let Some(kept) = kept(line.trim_end()) {
                return kept;
            }
        }
    }

    /// Kills it (SIGKILL on Unix); returns the last event that it said is kept, if it said so since `first_kept`.
    pub fn kill(mut self) -> Option<u64> {
        self.child.kill().unwrap();
        self.child.wait().unwrap();
        let mut rest = Vec::new();
        self.said.read_to_end(&mut rest).unwrap();
        let rest = String::from_utf8(rest).unwrap();
        let whole = rest.rfind('\n').map_or("", |end| &rest[..end]);
        whole.lines().filter_map(kept).next_back()
    }
}

fn kept(line: &str) -> Option<u64> {
    line.strip_prefix("kept ")?.parse().ok()
}

#[test]
fn nothing_acknowledged_is_lost_by_a_kill() {
    let kills: u64 = std::env::var(KILLS).map_or(30, |count| count.parse().unwrap());
    let mut bench = Bench::new();
    for round in 0..kills {
        if round % 20 == 0 {
            bench = Bench::new();
            drop(bench.create());
        }
        let mut writer = Writer::start(&bench);
        let first = writer.first_kept();
        // Spread over the time of an append, which is some hundred microseconds to some milliseconds.
        std::thread::sleep(Duration::from_micros(round * 7919 % 20_000));
        let acknowledged = writer.kill().unwrap_or(first);
        // Opened as after any crash: the lock must be free, and the chain whole.
        let (_journal, contents) = bench.open().unwrap();
        let found = contents.head.seq;
        // One more may be there: written, but killed before it could say so.
        assert!(found == acknowledged || found == acknowledged + 1, "{found}, {acknowledged}");
        for line in &contents.lines {
            assert_eq!(
                contents.typed::<serde_json::Value>(line).unwrap().event["number"],
                line.seq,
                "round {round}"
            );
        }
    }
}
