//! Times in the record: late entries with both, a clock that was set back, missed waits, logs.

use std::sync::Arc;

use bayhand::journal::{Pinned, Runs};
use bayhand::procedure;
use bayhand::record::model::Record;
use bayhand::record::text::render;
use bayhand::record::{Kept, build, verify};
use bayhand::run::{Answer, Ask, Book, FlowAnswer, Input, LateAnswer, SlipCheck};
use bayhand::session::{LiveRun, StoredRun};
use bayhand::source::SourceText;
use bayhand::system::scripted::{FaultyDisk, ScriptedClock};
use bayhand::system::{Environment, System};
use jiff::{SignedDuration, ZonedDateTime};
use tempfile::TempDir;

use super::same_fields::compare;
use crate::run::drive::{by_itself, titled};

/// A run of tables and a body, with a clock that the test moves.
pub struct Own {
    _folder: TempDir,
    runs: Runs,
    pinned: Pinned,
    live: LiveRun,
    now: ZonedDateTime,
}

impl Own {
    /// A run that has begun at 18:30, with a lead and an odometer.
    pub fn of(tables: &str, body: &str) -> Self {
        let text = titled("Glue a bracket", tables, body);
        let folder = TempDir::new().unwrap();
        let now: ZonedDateTime = "2026-11-21T18:30:00+01:00[+01:00]".parse().unwrap();
        let clock = Arc::new(ScriptedClock::ticking(now.clone(), SignedDuration::ZERO));
        let system = System::new(clock, Arc::new(FaultyDisk::default()), Environment::default());
        let runs = Runs::new(&system, folder.path());
        let found = procedure::read(&SourceText::new("glue.md", text.as_str()), "glue");
        let messages: Vec<_> = found.diagnostics.iter().map(|found| &found.message).collect();
        let book = Book::new(found.value.unwrap_or_else(|| panic!("{messages:?}")), None);
        let pinned = Pinned { procedure: text, linked: Vec::new(), vehicle: None };
        let live = LiveRun::start(&runs, book, pinned.clone(), None, &now).unwrap();
        let mut own = Self { _folder: folder, runs, pinned, live, now };
        own.give(Answer::Person("Robin Vale".to_owned()));
        own.typed("187400 km");
        own
    }

    pub fn pass(&mut self, minutes: i64) {
        self.now = self.now.checked_add(SignedDuration::from_mins(minutes)).unwrap();
    }

    pub fn give(&mut self, answer: Answer) {
        let asked = self.ask();
        self.live.take(Input::Answer(answer), &self.now).unwrap_or_else(|why| panic!("{asked:?}: {why}"));
        while let Some(answer) = by_itself(self.live.run.view(&self.now)) {
            self.live.take(Input::Answer(answer), &self.now).unwrap();
        }
    }

    fn late(&mut self, answer: Answer, done: &str) {
        let (done, reason) = (done.to_owned(), "from paper".to_owned());
        self.give(LateAnswer { answer: Box::new(answer), done, reason }.into());
    }

    pub fn typed(&mut self, text: &str) {
        self.give(typed(text));
    }

    pub fn ask(&self) -> Ask {
        self.live.run.view(&self.now).next().ask
    }

    /// The record, which must verify.
    pub fn record(mut self) -> (Record, String) {
        self.give(Answer::Close);
        self.record_so_far()
    }

    /// The record of a run as far as it has come, which must verify too.
    pub fn record_so_far(&self) -> (Record, String) {
        let run = StoredRun::read(&self.runs, &self.live.run.id).unwrap();
        let lines = run.lines();
        let kept = Kept { book: &run.book, events: &run.events, lines: &lines, pinned: &self.pinned };
        let record = build(&kept).unwrap();
        assert_eq!(verify(&serde_json::to_string(&record).unwrap()), Ok(()));
        let text = render(&record, 100);
        (record, text)
    }
}

fn typed(text: &str) -> Answer {
    Answer::Typed { text: text.to_owned(), slip: SlipCheck::Ask }
}

const GAP: &str = "[readings.gap]\nwhat = \"gap\"\nunit = \"mm\"\ninformation_only = true\n";

#[test]
fn a_late_entry_shows_both_times_in_data_and_print() {
    let mut own = Own::of(GAP, "1. Wipe.\n2. Measure [gap].\n");
    own.pass(120);
    own.late(Answer::Done, "19:15");
    own.late(typed("0.4 mm"), "19:20");
    let (record, text) = own.record();
    let step = record.steps[0].changes[0].clone();
    let late = step.late.unwrap();
    assert_eq!(
        (late.done.as_str(), step.when.at.as_str()),
        ("2026-11-21T19:15:00.000+01:00", "2026-11-21T20:30:00.000+01:00")
    );
    let attempt = &record.readings[0].attempts[0];
    assert_eq!(attempt.late.as_ref().map(|late| late.reason.as_str()), Some("from paper"));
    assert_eq!(attempt.who, ["Robin Vale"]);
    assert!(text.contains("done 2026-11-21 19:20:00 +01:00, entered late: from paper"), "{text}");
    assert!(text.contains("; #6; done 2026-11-21 19:20:00 +01:00"), "{text}");
    assert_eq!(record.notes.iter().filter(|note| note.kind == "late entry").count(), 2);
}

/// Whoever changes the stated time in the sealed data is found out.
#[test]
fn a_changed_stated_time_does_not_verify() {
    let mut own = Own::of(GAP, "1. Wipe.\n2. Measure [gap].\n");
    own.pass(120);
    own.late(Answer::Done, "19:15");
    own.late(typed("0.4 mm"), "19:20");
    let (record, _) = own.record();
    let json = serde_json::to_string(&record).unwrap();
    assert!(verify(&json.replacen("19:15:00", "20:15:00", 1)).is_err());
}

#[test]
fn a_clock_that_was_set_back_is_flagged_and_the_order_is_by_entries() {
    let mut own = Own::of("", "1. One.\n2. Two.\n3. Three.\n");
    own.pass(5);
    own.give(Answer::Done);
    own.pass(-60);
    own.give(Answer::Done);
    own.pass(1);
    own.give(Answer::Done);
    let (record, text) = own.record();
    let [jump] = &record.clock[..] else { panic!("{:?}", record.clock) };
    assert_eq!((jump.when.entry, jump.back_seconds.as_deref()), (6, Some("3600.000")));
    assert!(
        text.contains("CLOCK: entry 6 bears a time 1 h before that of entry 5: the clock was set back."),
        "{text}"
    );
    let order: Vec<u64> = record.steps.iter().map(|step| step.changes[0].when.entry).collect();
    assert_eq!(order, [5, 6, 7]);
}

#[test]
fn a_steady_clock_is_not_mentioned() {
    let mut own = Own::of("", "1. One.\n");
    own.give(Answer::Done);
    let (record, text) = own.record();
    assert!(record.clock.is_empty() && !text.contains("CLOCK"));
}

#[test]
fn a_missed_wait_and_the_path_for_it() {
    let tables = "[waits.glue]\nwhat = \"the glue stays soft\"\nat_most = \"10 min\"\n[conditions.set]\nmissed = \"glue\"\n";
    let mut own =
        Own::of(tables, "1. Spread it: [glue] begins.\n2. Press within [glue].\n3. [set] Scrape it off.\n");
    own.give(Answer::Done);
    own.pass(11);
    own.give(Answer::Flow(FlowAnswer::Missed));
    own.give(Answer::Done);
    let (record, text) = own.record();
    assert_eq!(record.deviations.count, 0);
    assert_eq!(record.steps[1].why.as_deref(), Some("the time was missed: the glue stays soft"));
    assert_eq!(record.waits[0].starts[0].missed.as_ref().map(|missed| missed.entry), Some(6));
    assert!(text.contains("due by 2026-11-21 18:40:00 +01:00"), "{text}");
    assert!(text.contains("path for that was taken: #6"), "{text}");
    assert_eq!(record.steps[2].state, "done");
}

#[test]
fn a_log_row_by_row_with_the_late_one() {
    let tables = "[repeats.rows]\nwhat = \"a row of the log\"\ntimes = 3\nevery = \"5 min\"\nlate = \"1 min\"\n\
[readings.temp]\nwhat = \"temperature\"\nunit = \"°C\"\ninformation_only = true\n";
    let mut own = Own::of(tables, "1. [rows] Read [temp].\n");
    for (minutes, temp) in [(0, "20 °C"), (5, "30 °C"), (8, "40 °C")] {
        own.pass(minutes);
        own.typed(temp);
    }
    let (record, text) = own.record();
    let log = &record.logs[0];
    assert_eq!((log.every.as_str(), log.late.as_deref()), ("5 min", Some("1 min")));
    let late: Vec<Option<&str>> = log.rows.iter().map(|row| row.late.as_deref()).collect();
    assert_eq!(late, [None, None, Some("late by 3 min")]);
    assert_eq!(log.rows[2].due.as_deref(), Some("2026-11-21T18:40:00.000+01:00"));
    assert!(text.contains("LATE: a row of the log: row 3 by 3 min"), "{text}");
    assert!(text.contains("due 2026-11-21 18:40:00 +01:00; came 2026-11-21 18:43:00 +01:00"), "{text}");
    let entries: Vec<_> =
        log.rows.iter().map(|row| (row.came.as_ref().unwrap().entry, row.when.entry)).collect();
    assert!(
        entries.iter().all(|(came, ended)| came + 1 == *ended),
        "the reading, then the word: {entries:?}"
    );
    assert!(text.contains("3 temp: 40 °C"), "{text}");
    compare(&record);
}

#[test]
fn a_time_taken_here_is_told_from_one_that_was_typed() {
    let tables = "[readings.engage]\nwhat = \"bite\"\nunit = \"s\"\ninformation_only = true\nstopwatch = true\n\
[readings.dwell]\nwhat = \"dwell\"\nunit = \"s\"\ninformation_only = true\nstopwatch = true\n";
    let mut own = Own::of(tables, "1. Time it: [engage].\n2. And [dwell].\n");
    own.typed("12.3 s by stopwatch");
    own.typed("12.3");
    let (_, text) = own.record();
    assert!(text.contains("12.3 s (typed \"12.3 s by stopwatch\")"), "{text}");
    assert_eq!(text.matches("by stopwatch").count(), 1, "{text}");
}
