//! A disk that fails at any of its operations while somebody sits at a run: what was acknowledged is there, nothing is
//! there twice, and the run can be gone on with.
//!
//! Every so many operations are tried, each in a sixth of the ways in which it can fail; `BAYHAND_ALL_FAULTS=1` tries all.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::rc::Rc;
use std::sync::Arc;
use std::time::Duration;

use bayhand::cli::proved;
use bayhand::journal::{Pinned, RunId, Runs};
use bayhand::procedure;
use bayhand::run::{Book, Input};
use bayhand::session::LiveRun;
use bayhand::source::SourceText;
use bayhand::system::scripted::{Fault, FaultyDisk, HowFar, ScriptedClock};
use bayhand::system::{Environment, System};
use bayhand::terminal::{
    Beside, Ended, Entry, Heard, KeyHint, Manner, Outside, Reminder, Text, Timing, Ui, Wait, offer, paint,
    talk,
};
use bayhand::vehicle;
use jiff::{SignedDuration, ZonedDateTime};
use serde_json::Value;
use tempfile::TempDir;

use super::kills::nothing_is_doubled;
use super::robot;
use super::stage::words_of;

const PICTURE: &[u8] = b"not really a picture";

/// A folder, a disk that can fail, and a clock that somebody moves.
struct Shop {
    folder: TempDir,
    disk: FaultyDisk,
    clock: Arc<ScriptedClock>,
    system: System,
    runs: Runs,
}

/// The small procedure, with a photo in it.
fn texts() -> (SourceText, SourceText) {
    let read = |name: &str| fs::read_to_string(format!("tests/cases/session/{name}")).unwrap();
    let photo = "[readings.jug_photo]\nwhat = \"photo of the jug\"\nkind = \"file\"\n\n[conditions.milky]";
    let text = read("bleed.md").replace("[conditions.milky]", photo);
    let text = text.replace(": [left_as].", ": [left_as], and take a photo: [jug_photo].");
    assert!(text.contains("photo: [jug_photo]."));
    (SourceText::new("bleed.md", text), SourceText::new("vehicle.toml", read("vehicle.toml")))
}

fn book() -> (Book, Pinned) {
    let (text, sheet_text) = texts();
    let procedure = procedure::read(&text, "bleed").value.unwrap();
    let sheet = vehicle::read(&sheet_text).value.unwrap();
    let pinned = Pinned::of(&procedure, Some(&sheet_text));
    (Book::new(procedure, Some(sheet)), pinned)
}

impl Shop {
    fn new() -> Self {
        let folder = TempDir::new().unwrap();
        fs::write(folder.path().join(robot::PHOTO), PICTURE).unwrap();
        let now = "2026-11-21T18:30:00+01:00[Europe/Berlin]".parse().unwrap();
        let clock = Arc::new(ScriptedClock::standing(now));
        let disk = FaultyDisk::default();
        let system = System::new(clock.clone(), Arc::new(disk.clone()), Environment::default());
        let runs = Runs::new(&system, &folder.path().join("data"));
        Self { folder, disk, clock, system, runs }
    }

    /// The only run, if one is there.
    fn run(&self) -> Option<RunId> {
        let folders = self.runs.folders().unwrap();
        assert!(folders.len() <= 1, "{folders:?}");
        let id = RunId::parse(folders.first()?).unwrap();
        let contents = self.runs.read(&id).expect("no folder without a journal");
        assert!(!contents.lines.is_empty(), "no journal without an entry");
        Some(id)
    }

    fn journal(&self) -> Option<String> {
        self.run().map(|id| fs::read_to_string(self.runs.folder(&id).join("journal.jsonl")).unwrap())
    }

    /// Goes on with the run that is there, or begins it.
    fn open(&self) -> Result<LiveRun, String> {
        let _ = self.runs.sweep(|_| false);
        let now = self.system.now();
        let mut live = if let Some(id) = self.run() {
            let mut live = LiveRun::open(&self.runs, &id).map_err(|error| error.to_string())?;
            live.take(Input::Resume, &now).map_err(|error| error.to_string())?;
            live
        } else {
            let (book, pinned) = book();
            LiveRun::start(&self.runs, book, pinned, None, &now).map_err(|error| error.to_string())?
        };
        live.look_for_files_in(self.folder.path());
        Ok(live)
    }

    /// Sits at the run until it is closed or the disk fails: what the journal held when the last question was asked.
    fn sits(&self) -> (String, Result<(), String>) {
        let mut live = match self.open() {
            Ok(live) => live,
            Err(why) => return (String::new(), Err(why)),
        };
        let journal = self.runs.folder(&live.run.id).join("journal.jsonl");
        let (said, held) = (String::new(), String::new());
        let clock = Arc::clone(&self.clock);
        let mut person = Somebody { clock, journal, said, held, in_vain: 0, typed: Vec::new() };
        let system = self.system.clone();
        let outside = Outside {
            now: &|| system.now(),
            ticks: Rc::new(|| Duration::ZERO),
            farewell: &|_| {},
            beside: Beside::default(),
        };
        let ended = talk(&mut person, &mut live, &outside, Text::new()).expect("the screen never fails");
        for typed in &person.typed[..person.typed.len().saturating_sub(1)] {
            assert!(person.held.contains(typed.as_str()), "`{typed}` was acknowledged\n{}", person.held);
        }
        match ended {
            Ended::Closed => (person.held, Ok(())),
            Ended::NotKept(error) => (person.held, Err(error.to_string())),
            // A photo that cannot be copied is asked for again and again.
            Ended::Gone => (person.held, Err("nothing is kept any more".to_owned())),
            other => panic!("{other:?}\n{}", person.said),
        }
    }

    /// No file that was being written is left, and nothing that was being made.
    fn is_tidy(&self) {
        let mut folders = vec![self.folder.path().join("data/runs")];
        while let Some(folder) = folders.pop() {
            for entry in fs::read_dir(&folder).into_iter().flatten().flatten() {
                let name = entry.file_name().to_string_lossy().into_owned();
                assert!(!name.starts_with('.'), "{name} is left in {}", folder.display());
                folders.extend(entry.path().is_dir().then(|| entry.path()));
            }
        }
    }
}

/// Somebody who answers whatever is asked, and looks into the journal at each question.
struct Somebody {
    clock: Arc<ScriptedClock>,
    journal: PathBuf,
    /// What was said since the last answer.
    said: String,
    /// What the journal held at the last question.
    held: String,
    /// How many questions ago the journal held something else.
    in_vain: usize,
    typed: Vec<String>,
}

impl Somebody {
    /// So many answers of which nothing is kept, and somebody goes away.
    const PATIENCE: usize = 30;

    fn hears(&mut self, text: &Text) {
        let painted = paint(text, 80, Manner::Mono);
        self.said.push_str(&console::strip_ansi_codes(&painted));
    }

    fn asked(&mut self, prompt: &str, keys: &[KeyHint]) -> String {
        let held = fs::read_to_string(&self.journal).expect("a journal");
        self.in_vain = if held == self.held { self.in_vain + 1 } else { 0 };
        self.held = held;
        self.hears(&Text::plain(prompt).then(if keys.is_empty() { Text::new() } else { offer(keys) }));
        self.clock.pass(SignedDuration::from_secs(2));
        words_of(&std::mem::take(&mut self.said))
    }
}

impl Ui for Somebody {
    fn say(&mut self, text: &Text) -> io::Result<()> {
        self.hears(text);
        Ok(())
    }

    fn ask_key(&mut self, prompt: &str, keys: &[KeyHint]) -> io::Result<Heard> {
        let said = self.asked(prompt, keys);
        if self.in_vain > Self::PATIENCE {
            return Ok(Heard::Gone);
        }
        if let Some(more) = keys.iter().find(|hint| hint.does == "more") {
            self.said = said;
            return Ok(Heard::Key(more.key));
        }
        let (_, key) = robot::key(&said);
        let key = key.chars().next().expect("a key");
        Ok(Heard::Key(if key == '\r' { '\n' } else { key }))
    }

    fn ask_text(&mut self, prompt: &str, _entry: Entry) -> io::Result<Heard> {
        let said = self.asked(prompt, &[]) + " >";
        if self.in_vain > Self::PATIENCE {
            return Ok(Heard::Gone);
        }
        let (_, line) = robot::line(&said);
        let line = line.trim_end_matches('\r').to_owned();
        // An entry that is asked back is not one yet, and initials are kept as the names that they stand for.
        let is_kept_so = !["800", "RV", "SH", "RV, SH", "as it was", robot::PHOTO].contains(&line.as_str());
        self.typed.push(if is_kept_so { line.clone() } else { String::new() });
        Ok(Heard::Text(line))
    }

    fn ask_choice(&mut self, prompt: &str, items: &[String], _start: usize) -> io::Result<Heard> {
        self.asked(prompt, &[]);
        Ok(Heard::Chosen(2.min(items.len() - 1)))
    }

    fn wait(&mut self, wait: &Wait<'_>) -> io::Result<Heard> {
        self.clock.pass(SignedDuration::try_from(wait.left()).expect("a short time"));
        Ok(Heard::Elapsed)
    }

    fn time(&mut self, _timing: &Timing<'_>) -> io::Result<Heard> {
        panic!("nothing is timed here")
    }

    fn remind(&mut self, _ticks: Rc<dyn Fn() -> Duration>, _reminders: Vec<Reminder>) {}

    fn clear_for_screen(&mut self) -> io::Result<()> {
        Ok(())
    }

    fn keeps_what_was_said(&self) -> bool {
        false
    }

    fn width(&self) -> usize {
        80
    }

    fn height(&self) -> usize {
        24
    }
}

/// A run that was sat at to its end, whatever came between.
fn closed_well(shop: &Shop) {
    let id = shop.run().expect("a run");
    let folder = shop.runs.folder(&id);
    let journal = shop.journal().expect("a journal");
    let events: Vec<Value> = journal
        .lines()
        .map(|line| serde_json::from_str::<Value>(line).expect("a line of JSON")["event"]["what"].clone())
        .collect();
    nothing_is_doubled(&events, 7);
    let kept = fs::read_dir(folder.join("files")).expect("the kept files");
    let kept: Vec<PathBuf> = kept.map(|entry| entry.expect("an entry").path()).collect();
    assert_eq!(kept.len(), 1, "{kept:?}");
    assert_eq!(fs::read(&kept[0]).expect("the photo"), PICTURE);
    if let Err(faults) = proved(&shop.system, &folder, None) {
        panic!("{faults:?}");
    }
    shop.is_tidy();
}

/// How many operations a whole run takes, nothing failing.
fn operations() -> u64 {
    let shop = Shop::new();
    let (_, ended) = shop.sits();
    assert_eq!(ended, Ok(()));
    closed_well(&shop);
    shop.disk.changes()
}

#[test]
fn a_fault_at_any_operation_loses_nothing_and_doubles_nothing() {
    let all = std::env::var_os("BAYHAND_ALL_FAULTS").is_some();
    let operations = operations();
    assert!(operations > 60, "{operations}");
    let ways = [HowFar::Nothing, HowFar::Half, HowFar::All]
        .into_iter()
        .flat_map(|how_far| [(how_far, false), (how_far, true)])
        .collect::<Vec<_>>();
    let (mut tried, mut felt) = (0_usize, 0_usize);
    for operation in 0..operations {
        let turn = usize::try_from(operation).unwrap();
        // The start, which is all faults of its own, is always tried.
        if !all && operation > 14 && operation % 3 != 0 {
            continue;
        }
        for (way, &(how_far, goes_on)) in ways.iter().enumerate() {
            // Of the start a third of the ways, of the rest a sixth.
            let every = if operation > 14 { ways.len() } else { ways.len() / 2 };
            if !all && way % every != turn % every {
                continue;
            }
            tried += 1;
            let shop = Shop::new();
            let fault = if goes_on { Fault::FromThenOn } else { Fault::Once };
            shop.disk.inject(fault(operation, how_far));
            let (held, ended) = shop.sits();
            felt += usize::from(ended.is_err());
            shop.disk.heal();
            shop.disk.lose_power().unwrap();
            let what = format!("operation {operation}, {how_far:?}, goes on: {goes_on}: {ended:?}");
            let found = shop.journal().unwrap_or_default();
            assert!(found.starts_with(&held), "{what}\n{held}\n---\n{found}");
            // What came to be there and could not be cut off again may have been the close.
            if ended.is_err() && !found.contains("\"closed\":{}") {
                let (_, ended) = shop.sits();
                assert_eq!(ended, Ok(()), "{what}");
            }
            shop.runs.sweep(|_| false).unwrap();
            closed_well(&shop);
        }
    }
    println!("{operations} operations, {tried} faults, {felt} of them felt");
    assert!(felt * 10 > tried * 8, "{felt} of {tried} faults were felt");
}

/// The process is gone at any operation of a start: what is left is no run, or a whole one.
#[test]
fn a_start_that_is_killed_at_any_operation_leaves_no_run_or_a_whole_one() {
    for operation in 0..30 {
        for how_far in [HowFar::Nothing, HowFar::Half, HowFar::All] {
            let shop = Shop::new();
            shop.disk.inject(Fault::FromThenOn(operation, how_far));
            let ended = shop.open().map(|live| live.run.id);
            shop.disk.heal();
            shop.disk.lose_power().unwrap();
            let what = format!("operation {operation}, {how_far:?}: {ended:?}");
            let left = shop.run();
            assert!(ended.is_err() || left.is_some(), "{what}");
            let (_, not_begun) = shop.runs.sweep(|_| false).unwrap();
            assert_eq!(not_begun, [], "{what}: nothing that would have to be said");
            shop.is_tidy_but_for(left.as_ref());
            shop.open().unwrap_or_else(|why| panic!("{what}: {why}"));
            assert_eq!(shop.journal().unwrap().matches("\"started\"").count(), 1, "{what}");
            shop.is_tidy();
        }
    }
}

impl Shop {
    /// After a sweep, nothing is left but the run, in whose folder only whoever opens it tidies up.
    fn is_tidy_but_for(&self, run: Option<&RunId>) {
        let runs = self.folder.path().join("data/runs");
        let names = |folder: &Path| -> Vec<String> {
            let entries = fs::read_dir(folder).into_iter().flatten().flatten();
            entries.map(|entry| entry.file_name().to_string_lossy().into_owned()).collect()
        };
        let expected: Vec<String> = run.iter().map(|id| id.as_str().to_owned()).collect();
        assert_eq!(names(&runs), expected);
    }
}

/// The clock is put back and forward between and within sittings, and so is the zone: all is kept in its order.
#[test]
fn a_clock_that_is_set_between_sittings_loses_nothing() {
    let shop = Shop::new();
    let mut held = String::new();
    let moves = [
        "2026-11-21T18:40:00+01:00[Europe/Berlin]",
        "2019-01-01T00:00:00+00:00[UTC]",
        "2031-06-01T12:00:00-07:00[America/Los_Angeles]",
        "2026-11-22T09:00:00+05:45[Asia/Kathmandu]",
    ];
    for (nth, moved) in moves.iter().enumerate() {
        let now: ZonedDateTime = moved.parse().unwrap();
        shop.clock.set(now);
        shop.disk.inject(Fault::FromThenOn(30 + 4 * nth as u64, HowFar::Nothing));
        let (at_the_end, ended) = shop.sits();
        assert!(ended.is_err());
        shop.disk.heal();
        assert!(at_the_end.starts_with(&held), "{moved}");
        held = shop.journal().unwrap();
    }
    assert_eq!(shop.sits().1, Ok(()));
    let journal = shop.journal().unwrap();
    assert!(journal.starts_with(&held));
    closed_well(&shop);
    for offset in ["+01:00", "+00:00", "-07:00", "+05:45"] {
        assert!(journal.contains(&format!("{offset}\"")), "{offset}");
    }
}
