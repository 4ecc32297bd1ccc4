//! What an answer costs in a long run, as a ratio to one in a short run; and what it costs to read a long run back, as a
//! ratio to reading, parsing and hashing the same bytes plainly.
//!
//! `cargo bench --bench long`; the ratios, not the times, can be compared between machines.
#![allow(
    clippy::disallowed_methods,
    clippy::print_stdout,
    reason = "a bench reads the clock, reads plainly, and prints"
)]

use std::error::Error;
use std::path::Path;
use std::time::{Duration, Instant};

use bayhand::journal::{LiveRun, Pinned, Runs, StoredRun};
use bayhand::procedure;
use bayhand::run::{
    Answer, Ask, Book, FlowAnswer, FlowAsk, Input, InterruptionAnswer, SlipCheck, Stamp, State, View, apply,
    decide,
};
use bayhand::source::SourceText;
use bayhand::system::System;
use jiff::{SignedDuration, ZonedDateTime};
use sha2::{Digest as _, Sha256};

/// A log that goes on for very long: a reading, a computed value with a limit, a condition, a step of parts.
const LOG: &str = "+++\nformat = 1\nrevision = \"A\"\ndate = 2026-11-01\nauthor = \"bench\"\nscope = \"any\"\n\
level_of_use = \"continuous\"\ntools = \"none\"\nmaterials = \"none\"\nparts = \"none\"\nhazards = \"none\"\n\
required = \"none\"\nclose_up = \"none\"\n[roles]\nlead = \"does it\"\n\
[readings.v]\nwhat = \"voltage\"\nunit = \"V\"\nmin = \"10 V\"\n\
[values.double]\nwhat = \"twice\"\nunit = \"V\"\nformula = '2 * v'\nmax = \"60 V\"\n\
[conditions.high]\nif = 'v > 26 V'\n[repeats.log]\nwhat = \"log\"\nuntil = 'v > 50 V'\n\
not_needed_after = \"the bench ends\"\n+++\n\n\
# Log\n\n## Log\n\n1. [log] Take a row:\n   1. Read [v], which gives [double].\n   2. [high] Turn it down.\n   3. Wipe.\n";

/// How many answers are measured at each length.
const MEASURED: usize = 200;

struct Drive {
    book: Book,
    state: State,
    now: ZonedDateTime,
    seq: u64,
}

impl Drive {
    fn begin(live: &LiveRun, now: &ZonedDateTime) -> Self {
        let state = live.run.state.clone();
        Self { book: live.run.book.clone(), state, now: now.clone(), seq: 1 }
    }

    fn step(&mut self) {
        self.now = self.now.checked_add(SignedDuration::from_secs(20)).unwrap_or_else(|_| self.now.clone());
        let view = View::new(&self.book, &self.state, &self.now);
        let Some(answer) = answer(&view.next().ask, self.seq) else { return };
        let Ok(decided) = decide(&self.book, &self.state, Input::Answer(answer), &self.now) else { return };
        self.seq += 1;
        let stamp = Stamp { seq: self.seq, at: self.now.clone(), place: decided.place };
        self.state = apply(&self.book, std::mem::take(&mut self.state), &decided.event, &stamp);
    }

    fn to(&mut self, events: u64) {
        while self.seq < events {
            self.step();
        }
    }

    /// The median cost of one answer from here.
    fn answer_costs(&mut self) -> Duration {
        let once = |_| {
            let started = Instant::now();
            self.step();
            started.elapsed()
        };
        let mut times: Vec<Duration> = (0..MEASURED).map(once).collect();
        times.sort();
        times[MEASURED / 2]
    }
}

fn answer(ask: &Ask, seq: u64) -> Option<Answer> {
    Some(match ask {
        Ask::Person(_) => Answer::Person("Robin Vale".to_owned()),
        Ask::Interruption(_) => Answer::Interruption(InterruptionAnswer::True),
        Ask::Reading(_) => {
            Answer::Typed { text: format!("2{}.{} V", seq % 8, seq % 10), slip: SlipCheck::Sure }
        }
        Ask::Do => Answer::Done,
        Ask::Flow(FlowAsk::PassEnd(_)) => Answer::Flow(FlowAnswer::Counts),
        _ => return None,
    })
}

fn main() -> Result<(), Box<dyn Error>> {
    let folder = tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR"))?;
    let now: ZonedDateTime = "2026-11-21T18:30:00+00:00[+00:00]".parse()?;
    let live = start(folder.path(), &now)?;
    let mut drive = Drive::begin(&live, &now);
    drive.to(100);
    let short = drive.answer_costs();
    drive.to(100_000);
    let long = drive.answer_costs();
    println!("an answer at 100 events: {short:?}; at 100,000: {long:?}");
    println!("ratio: {:.2}", long.as_secs_f64() / short.as_secs_f64());
    drop(live);
    for events in [10_000, 100_000] {
        resumed(folder.path(), events, &now)?;
    }
    Ok(())
}

fn start(folder: &Path, now: &ZonedDateTime) -> Result<LiveRun, Box<dyn Error>> {
    let procedure =
        procedure::read(&SourceText::new("log.md", LOG), "log").value.ok_or("it does not check")?;
    let pinned = Pinned { procedure: LOG.to_owned(), linked: Vec::new(), vehicle: None };
    let runs = Runs::new(&System::real(), folder);
    LiveRun::start(&runs, Book { procedure, sheet: None }, pinned, None, now)
        .map_err(|why| why.to_string().into())
}

/// Reading a run back, beside what its bytes cost plainly. The lines are made once, chained as the journal does.
fn resumed(folder: &Path, events: u64, now: &ZonedDateTime) -> Result<(), Box<dyn Error>> {
    let live = start(folder, now)?;
    let id = live.run.id.clone();
    let mut drive = Drive::begin(&live, now);
    let runs = Runs::new(&System::real(), folder);
    let path = runs.folder(&id).join("journal.jsonl");
    drop(live);
    let text = lines(&mut drive, events, std::fs::read_to_string(&path)?);
    std::fs::write(&path, &text)?;
    let ours = fastest(|| drop(StoredRun::read(&runs, &id)));
    StoredRun::read(&runs, &id).map_err(|why| why.to_string())?;
    let plain = fastest(|| plainly(&path));
    println!("resume of {events}: {ours:?}; read, parse, hash plainly: {plain:?}");
    println!("ratio: {:.2}", ours.as_secs_f64() / plain.as_secs_f64());
    Ok(())
}

fn lines(drive: &mut Drive, events: u64, mut text: String) -> String {
    let mut last = text.clone();
    while drive.seq < events {
        drive.now =
            drive.now.checked_add(SignedDuration::from_secs(20)).unwrap_or_else(|_| drive.now.clone());
        let view = View::new(&drive.book, &drive.state, &drive.now);
        let Some(answer) = answer(&view.next().ask, drive.seq) else { break };
        let Ok(decided) = decide(&drive.book, &drive.state, Input::Answer(answer), &drive.now) else { break };
        drive.seq += 1;
        let event = bayhand::journal::written_line(&drive.book, &decided.event, decided.place.as_ref());
        let prev = bayhand::journal::Digest::of(last.as_bytes()).to_string();
        let time = bayhand::journal::write_time(&drive.now);
        last =
            format!("{{\"seq\":{},\"time\":\"{time}\",\"prev\":\"{prev}\",\"event\":{event}}}\n", drive.seq);
        text.push_str(&last);
        let stamp = Stamp { seq: drive.seq, at: drive.now.clone(), place: decided.place };
        drive.state = apply(&drive.book, std::mem::take(&mut drive.state), &decided.event, &stamp);
    }
    text
}

fn plainly(path: &Path) {
    let text = std::fs::read_to_string(path).unwrap_or_default();
    for line in text.lines() {
        let _ = std::hint::black_box(serde_json::from_str::<serde_json::Value>(line));
        std::hint::black_box(Sha256::digest(line.as_bytes()));
    }
}

fn fastest(mut work: impl FnMut()) -> Duration {
    let once = |_| {
        let started = Instant::now();
        work();
        started.elapsed()
    };
    (0..3).map(once).min().unwrap_or_default()
}
