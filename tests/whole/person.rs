//! A person at a conversation who answers as a file of answers says, and counts what was shown and asked.

use std::cell::RefCell;
use std::collections::VecDeque;
use std::io;
use std::rc::Rc;
use std::time::Duration;

use bayhand::answers::{Line, Script};
use bayhand::journal::{Pinned, Runs};
use bayhand::procedure;
use bayhand::run::Book;
use bayhand::session::LiveRun;
use bayhand::source::SourceText;
use bayhand::system::System;
use bayhand::terminal::Beside;
use bayhand::terminal::{
    Ended, Entry, Heard, KeyHint, KeyKind, Manner, Outside, Reminder, Text, Timing, Ui, Wait, offer, opening,
    paint, rows, talk,
};
use bayhand::vehicle;
use jiff::{SignedDuration, ZonedDateTime};

/// What was on the screen when an answer was given.
#[derive(Clone, Debug, Default)]
pub struct Shown {
    /// As it stood there: everything that was written since the screen was cleared.
    pub screen: String,
    /// How many words that is.
    pub words: usize,
    /// How many of them are its frame: where we are, what protects, what comes next, the keys.
    pub frame: usize,
    /// How many rows it takes.
    pub rows: usize,
    /// How many keys were pressed.
    pub keys: usize,
}

/// Somebody who answers from a file.
pub struct Person {
    lines: VecDeque<Line>,
    /// What is typed before the next line is looked at.
    next: VecDeque<String>,
    pace: SignedDuration,
    clock: Rc<RefCell<ZonedDateTime>>,
    size: (usize, usize),
    /// Whether what was said stays in sight, as in linear output.
    keeps: bool,
    now: Shown,
    /// Every screen, in order.
    pub shown: Vec<Shown>,
}

/// What each deed of a file of answers is called where it is offered as a key.
const DEEDS: [(&str, &str); 8] = [
    ("acknowledge", "acknowledge"),
    ("true", "yes"),
    ("done", "done"),
    ("complete", "section complete"),
    ("counts", "it counts"),
    ("good", "good"),
    ("again", "take it again"),
    ("close", "end: close and seal the run"),
];

/// Every screen of the example at a terminal of this size.
pub fn walk(size: (usize, usize), keeps: bool) -> Vec<Shown> {
    let read = |name: &str| std::fs::read_to_string(format!("procedures/{name}")).unwrap();
    let script = Script::read(&read("answers-example.toml")).unwrap();
    let text = SourceText::new("cooler-line-flush.md", read("cooler-line-flush.md"));
    let procedure = procedure::read(&text, "cooler-line-flush").value.unwrap();
    let sheet_text = SourceText::new("vehicle-example.toml", read("vehicle-example.toml"));
    let sheet = vehicle::read(&sheet_text).value.unwrap();
    let folder = tempfile::tempdir().unwrap();
    let runs = Runs::new(&System::real(), folder.path());
    let pinned = Pinned::of(&procedure, Some(&sheet_text));
    let book = Book::new(procedure, Some(sheet));
    let mut live = LiveRun::start(&runs, book, pinned, None, &script.clock).unwrap();
    walked(&mut live, script, size, keeps)
}

/// Talks a whole run through; every screen that it took.
fn walked(live: &mut LiveRun, script: Script, size: (usize, usize), keeps: bool) -> Vec<Shown> {
    let clock = Rc::new(RefCell::new(script.clock.clone()));
    let mut person = Person {
        lines: script.lines.into_iter().map(|(line, _)| line).collect(),
        next: VecDeque::new(),
        pace: script.pace,
        clock: Rc::clone(&clock),
        size,
        keeps,
        now: Shown::default(),
        shown: Vec::new(),
    };
    let outside = Outside {
        now: &|| clock.borrow().clone(),
        ticks: Rc::new(|| Duration::ZERO),
        farewell: &|_| {},
        beside: Beside::default(),
    };
    let first = opening(&live.run.book.procedure).blank();
    let ended = talk(&mut person, live, &outside, first).unwrap_or_else(|why| {
        panic!("{why}; on the screen:\n{}", person.now.screen);
    });
    assert!(matches!(ended, Ended::Closed), "{ended:?}; on the screen:\n{}", person.now.screen);
    person.shown
}

impl Person {
    fn put(&mut self, text: &Text) {
        let (width, _) = self.size;
        self.now.screen.push_str(&paint(text, width, Manner::Mono));
        self.now.rows += rows(text, width, Manner::Mono);
        let painted = self.in_one_row_a_line(text);
        self.now.words += painted.lines().map(words).sum::<usize>();
    }

    /// The words as they are shown, none of them wrapped.
    fn in_one_row_a_line(&self, text: &Text) -> String {
        let manner = if self.keeps { Manner::Lines } else { Manner::Mono };
        console::strip_ansi_codes(&paint(text, usize::MAX >> 8, manner)).into_owned()
    }

    /// The frame of a screen stands below its last empty row.
    fn put_screen(&mut self, text: &Text) {
        self.put(text);
        let painted = self.in_one_row_a_line(text);
        let frame = painted.lines().rev().take_while(|row| !row.trim().is_empty());
        self.now.frame += frame.map(words).sum::<usize>();
    }

    /// The question as a terminal shows it: what is asked, the keys, the row that the cursor stands in.
    fn put_prompt(&mut self, prompt: &str, keys: &[KeyHint]) {
        self.put(&Text::plain(prompt).then(if keys.is_empty() { Text::new() } else { offer(keys) }));
        self.now.rows += 1;
        // What can be chosen is the question, not its frame.
        let frame = keys.iter().filter(|hint| !hint.key.is_ascii_digit());
        let does = |hint: &KeyHint| if hint.kind == KeyKind::Common { 0 } else { words(&hint.does) };
        self.now.frame += frame.map(|hint| does(hint) + words(&hint.name())).sum::<usize>();
    }

    fn line(&mut self) -> io::Result<Line> {
        let line = self.lines.pop_front().ok_or_else(|| io::Error::other("the file has no answer left"))?;
        let pause = line.pause().map_or(self.pace, |pause| pause.unwrap());
        let later = self.clock.borrow().checked_add(pause).unwrap();
        *self.clock.borrow_mut() = later;
        self.next.extend(line.reason.clone());
        self.next.extend(line.state.clone());
        self.next.extend(line.source.clone());
        Ok(line)
    }

    fn press(&mut self, keys: &[KeyHint], does: &str) -> io::Result<Heard> {
        let found = keys.iter().find(|hint| hint.does == does || hint.does.starts_with(&format!("{does}:")));
        let Some(hint) = found else {
            return Err(io::Error::other(format!("`{does}` is not offered among {keys:?}")));
        };
        self.now.keys += 1;
        Ok(Heard::Key(hint.key))
    }
}

/// Words of a row; a sign alone is none.
fn words(row: &str) -> usize {
    row.split_whitespace().filter(|word| word.chars().any(char::is_alphanumeric)).count()
}

impl Ui for Person {
    fn say(&mut self, text: &Text) -> io::Result<()> {
        if self.now.screen.is_empty() {
            self.put_screen(text);
        } else {
            self.put(text);
        }
        Ok(())
    }

    fn ask_key(&mut self, prompt: &str, keys: &[KeyHint]) -> io::Result<Heard> {
        self.put_prompt(prompt, keys);
        for by_itself in ["more", "keep it, it is so"] {
            if keys.iter().any(|hint| hint.does == by_itself) {
                return self.press(keys, by_itself);
            }
        }
        let line = self.line()?;
        if keys.iter().any(|hint| hint.does == "start the stopwatch") {
            self.next.extend(line.enter);
            return self.press(keys, "write a time");
        }
        let deed = |does: &str| DEEDS.contains(&(line.act.as_deref().unwrap_or_default(), does));
        let wanted = keys.iter().map(|hint| hint.does.clone()).find(|does| deed(does));
        let wanted = wanted.or(line.act.clone()).or(line.enter.clone()).unwrap_or_default();
        // A check is answered by a key and then by a name; a file gives the name alone.
        if line.act.is_none() && keys.iter().all(|hint| hint.does != wanted) {
            self.next.extend(line.enter);
            return self.press(keys, "yes");
        }
        self.press(keys, &wanted)
    }

    fn ask_text(&mut self, prompt: &str, entry: Entry) -> io::Result<Heard> {
        // What is asked on the side may push what was answered already off a small screen.
        let before = self.now.rows;
        self.put_prompt(prompt, &[]);
        if entry == Entry::Aside {
            self.now.rows = before;
        }
        let text = match self.next.pop_front() {
            Some(text) => text,
            None => self.line()?.enter.unwrap_or_default(),
        };
        self.now.keys += text.chars().count() + 1;
        Ok(Heard::Text(text))
    }

    fn ask_choice(&mut self, prompt: &str, items: &[String], _start: usize) -> io::Result<Heard> {
        self.put_prompt(prompt, &[]);
        self.put(&Text::plain(&items.join("\n")));
        let wanted = self.line()?.enter.unwrap_or_default();
        let place = items.iter().position(|item| *item == wanted);
        self.now.keys += 2;
        place.map(Heard::Chosen).ok_or_else(|| io::Error::other(format!("`{wanted}` is not among {items:?}")))
    }

    fn wait(&mut self, wait: &Wait) -> io::Result<Heard> {
        let left = SignedDuration::try_from(wait.left()).unwrap();
        let later = self.clock.borrow().checked_add(left).unwrap();
        *self.clock.borrow_mut() = later;
        Ok(Heard::Elapsed)
    }

    fn time(&mut self, timing: &Timing) -> io::Result<Heard> {
        Err(io::Error::other(format!("a file takes no time of `{}`", timing.label)))
    }

    fn remind(&mut self, _ticks: Rc<dyn Fn() -> Duration>, _reminders: Vec<Reminder>) {}

    fn clear_for_screen(&mut self) -> io::Result<()> {
        let shown = std::mem::take(&mut self.now);
        self.shown.extend((!shown.screen.is_empty()).then_some(shown));
        Ok(())
    }

    fn keeps_what_was_said(&self) -> bool {
        self.keeps
    }

    fn width(&self) -> usize {
        self.size.0
    }

    fn height(&self) -> usize {
        self.size.1
    }
}
