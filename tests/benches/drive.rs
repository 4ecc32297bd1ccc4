//! A run that goes on for very long, for benches: driven in memory, or as the lines of a journal on the disk.

use std::error::Error;
use std::path::Path;
use std::sync::Arc;
use std::time::{Duration, Instant};

use bayhand::journal::{Digest, Pinned, RunId, Runs, write_time};
use bayhand::procedure;
use bayhand::run::{
    Answer, Ask, Book, Decided, Event, FlowAnswer, FlowAsk, Input, InterruptionAnswer, SlipCheck, Stamp,
    State, View, apply, decide,
};
use bayhand::session::{LiveRun, written_line};
use bayhand::source::SourceText;
use bayhand::system::System;
use jiff::{SignedDuration, ZonedDateTime};

/// A log that goes on for very long: a reading, a computed value with a limit, a condition, a step of parts.
pub const LOG: &str = "+++\nformat = 1\nrevision = \"A\"\ndate = 2026-11-01\nauthor = \"bench\"\nscope = \"any\"\n\
level_of_use = \"continuous\"\ntools = \"none\"\nmaterials = \"none\"\nparts = \"none\"\nhazards = \"none\"\n\
required = \"none\"\nclose_up = \"none\"\n[roles]\nlead = \"does it\"\n\
[readings.v]\nwhat = \"voltage\"\nunit = \"V\"\nmin = \"10 V\"\n\
[values.double]\nwhat = \"twice\"\nunit = \"V\"\nformula = '2 * v'\nmax = \"60 V\"\n\
[conditions.high]\nif = 'v > 26 V'\n[repeats.log]\nwhat = \"log\"\nuntil = 'v > 50 V'\n\
not_needed_after = \"the bench ends\"\n+++\n\n\
# Log\n\n## Log\n\n1. [log] Take a row:\n   1. Read [v], which gives [double].\n   2. [high] Turn it down.\n   3. Wipe.\n";

/// How many answers are measured at each length.
const MEASURED: usize = 200;

/// A run that answers itself.
pub struct Drive {
    book: Book,
    state: State,
    now: ZonedDateTime,
    seq: u64,
}

impl Drive {
    /// Goes on from the start of a run.
    pub fn begin(live: &LiveRun, now: &ZonedDateTime) -> Self {
        let state = live.run.state.clone();
        Self { book: live.run.book.clone(), state, now: now.clone(), seq: 1 }
    }

    /// One answer; what it was, as it would stand in the journal.
    fn step(&mut self) -> Option<Decided> {
        self.now = self.now.checked_add(SignedDuration::from_secs(20)).unwrap_or_else(|_| self.now.clone());
        let view = View::new(&self.book, &self.state, &self.now);
        self.give(answer(&view.next().ask, self.seq)?)
    }

    fn give(&mut self, answer: Answer) -> Option<Decided> {
        let decided = decide(&self.book, &self.state, Input::Answer(answer), &self.now).ok()?;
        self.seq += 1;
        let stamp = Stamp { seq: self.seq, at: self.now.clone(), place: decided.place.clone().map(Arc::new) };
        self.state = apply(&self.book, std::mem::take(&mut self.state), &decided.event, &stamp);
        Some(decided)
    }

    /// Goes on to the next reading and corrects it to the same, so that nothing done under it changes.
    pub fn correct(&mut self) {
        while let Some(Decided { event, .. }) = self.step() {
            if let Event::Read { reading, value } = event {
                let (text, reason) = (value.as_typed(), "misread".to_owned());
                self.give(Answer::Correct { reading, entry: None, text, reason });
                return;
            }
        }
    }

    /// Goes on until there are so many events.
    pub fn to(&mut self, events: u64) {
        while self.seq < events && self.step().is_some() {}
    }

    /// The median cost of one answer from here.
    pub fn answer_costs(&mut self) -> Duration {
        let once = |_| {
            let started = Instant::now();
            self.step();
            started.elapsed()
        };
        let mut times: Vec<Duration> = (0..MEASURED).map(once).collect();
        times.sort();
        times[MEASURED / 2]
    }

    /// The lines of the journal up to so many events, chained as the journal does, after the line of the start.
    fn lines(&mut self, events: u64, mut text: String) -> String {
        let mut last = text.clone();
        while self.seq < events {
            let Some(Decided { event, place }) = self.step() else { break };
            let event = written_line(&self.book, &event, place.as_ref());
            let (prev, time) = (Digest::of(last.as_bytes()), write_time(&self.now));
            let seq = self.seq;
            last = format!("{{\"seq\":{seq},\"time\":\"{time}\",\"prev\":\"{prev}\",\"event\":{event}}}\n");
            text.push_str(&last);
        }
        text
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

/// A run of this procedure, in this data folder.
pub fn start(folder: &Path, text: &str, now: &ZonedDateTime) -> Result<LiveRun, Box<dyn Error>> {
    let procedure =
        procedure::read(&SourceText::new("log.md", text), "log").value.ok_or("it does not check")?;
    let pinned = Pinned { procedure: text.to_owned(), linked: Vec::new(), vehicle: None };
    let runs = Runs::new(&System::real(), folder);
    LiveRun::start(&runs, Book::new(procedure, None), pinned, None, now).map_err(|why| why.to_string().into())
}

/// A run with so many events on the disk.
pub fn stored(folder: &Path, events: u64, now: &ZonedDateTime) -> Result<RunId, Box<dyn Error>> {
    let live = start(folder, LOG, now)?;
    let (id, mut drive) = (live.run.id.clone(), Drive::begin(&live, now));
    drop(live);
    let path = Runs::new(&System::real(), folder).folder(&id).join("journal.jsonl");
    let text = drive.lines(events, std::fs::read_to_string(&path)?);
    std::fs::write(&path, &text)?;
    Ok(id)
}
