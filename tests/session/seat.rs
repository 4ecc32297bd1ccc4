//! A person in front of a terminal: reads until the question is there, then presses keys.

use std::num::NonZeroU16;
use std::path::Path;
use std::time::Duration;

use super::stage::{PROGRAM, Stage, words_of};
use crate::terminal::pty::Pty;

/// How the program speaks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Speech {
    /// With colour.
    Colour,
    /// With `NO_COLOR` set.
    NoColour,
    /// With `--plain`.
    Plain,
}

/// A terminal with the program at work in it.
pub struct Seat {
    pub pty: Pty,
    speech: Speech,
    columns: u16,
    /// Where the output begins that came after the last key.
    mark: usize,
}

/// What a prompt waits for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Waits {
    Key,
    Line,
    List,
    Time,
}

impl Seat {
    /// Sits down at a terminal of this width and 24 rows and starts the program.
    pub fn take(stage: &Stage, speech: Speech, columns: u16, arguments: &[&str]) -> Self {
        Self::take_at(stage, speech, (columns, 24), arguments)
    }

    /// The same at a terminal of this size.
    pub fn take_at(stage: &Stage, speech: Speech, (columns, rows): (u16, u16), arguments: &[&str]) -> Self {
        let data = stage.data().to_string_lossy().into_owned();
        let mut env = vec![("TZ", "UTC"), ("LANG", "C.UTF-8"), ("BAYHAND_DATA", data.as_str())];
        env.extend((speech == Speech::NoColour).then_some(("NO_COLOR", "1")));
        let plain = (speech == Speech::Plain).then_some("--plain");
        let arguments: Vec<&str> = plain.into_iter().chain(arguments.iter().copied()).collect();
        let pty = Pty::start((Path::new(PROGRAM), &arguments), columns, rows, &env);
        Self { pty, speech, columns, mark: 0 }
    }

    /// Starts the small procedure, or goes on with it.
    pub fn at_small_procedure(stage: &Stage, speech: Speech, columns: u16) -> Self {
        let (procedure, sheet) = (stage.path("bleed.md"), stage.path("vehicle.toml"));
        let (procedure, sheet) = (procedure.to_string_lossy(), sheet.to_string_lossy());
        Self::take(stage, speech, columns, &["run", &procedure, "--vehicle", &sheet])
    }

    /// Waits until these words are there and a key is asked for, then presses this one.
    pub fn key(&mut self, words: &str, key: &str) {
        self.ready(words, Waits::Key);
        self.press(key);
    }

    /// One key; linear output reads it as a line. What weighs something is read first.
    pub fn press(&mut self, key: &str) {
        if self.is_plain() {
            return self.types(&format!("{key}\r"));
        }
        self.types(key);
        self.until(|said| !said.is_empty());
        while self.said().contains("Read it first") {
            std::thread::sleep(Duration::from_millis(450));
            self.types(key);
            self.until(|said| !said.is_empty());
        }
    }

    /// Waits until these words are there and a line is asked for, then types this one.
    pub fn line(&mut self, words: &str, line: &str) {
        self.ready(words, Waits::Line);
        self.types(&format!("{line}\r"));
    }

    /// Waits until a line is asked for under these words, then presses one key and no Enter.
    pub fn one_key_at_line(&mut self, words: &str, key: &str) {
        self.ready(words, Waits::Line);
        self.press(key);
    }

    /// Waits until these words are there above a list, then takes the item at this place (from 0).
    pub fn item(&mut self, words: &str, place: usize) {
        self.ready(words, Waits::List);
        if self.said().contains("Type a number") {
            self.types(&format!("{}\r", place + 1));
        } else {
            self.types(&format!("{}\r", "\u{1b}[B".repeat(place)));
        }
    }

    /// Waits until the bar of a wait is there, then presses a key.
    pub fn interrupts(&mut self, words: &str) {
        self.ready(words, Waits::Time);
        self.types(if self.speech == Speech::Plain { "\r" } else { " " });
    }

    /// Waits until these words are there and something is asked.
    pub fn reads(&self, words: &str) {
        self.until(|said| said.contains(words) && asks(said, self.speech));
    }

    /// Waits until a question is there, whichever it is: what was said, and what it waits for.
    pub fn question(&self) -> (String, Waits) {
        self.until(|said| kind(said).is_some());
        let said = self.said();
        let kind = kind(&said).expect("a question");
        (said, kind)
    }

    /// Waits until a question is there, or these words where the program ends.
    pub fn question_or(&self, end: &str) -> Option<(String, Waits)> {
        self.until(|said| kind(said).is_some() || said.contains(end));
        let said = self.said();
        let kind = kind(&said)?;
        Some((said, kind))
    }

    /// Waits until the time is over.
    pub fn sits_it_out(&self) {
        self.until(|said| kind(said).is_some_and(|kind| kind != Waits::Time));
    }

    /// Waits until these words are there.
    pub fn sees(&self, words: &str) {
        self.until(|said| said.contains(words));
    }

    /// Everything that was shown since the last key, its words one space apart.
    pub fn said(&self) -> String {
        words_of(&self.rows_since())
    }

    /// Types keys as they are.
    pub fn types(&mut self, keys: &str) {
        self.mark = self.pty.length();
        self.pty.type_keys(keys);
    }

    /// Whether it speaks in lines.
    pub fn is_plain(&self) -> bool {
        self.speech == Speech::Plain
    }

    /// Waits for the end of the program: its exit code.
    pub fn leaves(mut self) -> u32 {
        self.pty.exit_code()
    }

    /// Everything that was shown since the last key, as if the screen were high enough for all of it.
    pub fn rows_since(&self) -> String {
        replay(&self.pty.written_since(self.mark), self.columns)
    }

    fn ready(&self, words: &str, what: Waits) {
        self.until(|said| said.contains(words) && waits_for(said, what, self.speech, words));
        if self.said().contains("In force: ") {
            self.protections_are_in_view();
        }
    }

    /// Waits for it, and turns the pages until it is there.
    fn until(&self, is_so: impl Fn(&str) -> bool) {
        let (mark, columns) = (self.mark, self.columns);
        let words = |bytes: &[u8]| words_of(&replay(&bytes[mark..], columns));
        let mut turned = 0;
        loop {
            self.pty.until_bytes(|bytes| {
                let said = words(bytes);
                is_so(&said) || said.matches(MORE).count() > turned && said.ends_with(MORE)
            });
            if is_so(&self.said()) {
                return;
            }
            turned += 1;
            self.pty.turn_page();
        }
    }

    /// What protects is on the screen, above the prompt, wherever the screen before is not in sight.
    fn protections_are_in_view(&self) {
        let text = self.pty.screen_text();
        assert!(words_of(&text).contains("In force: "), "the protections are out of sight:\n{text}");
    }
}

/// The words on a screen so high that nothing leaves it, with the pages of a screen below one another.
fn replay(bytes: &[u8], columns: u16) -> String {
    const CLEARED: &str = "\r\u{1b}[2J\r\u{1b}[H";
    const HIGH: u16 = 400;
    let bytes = String::from_utf8_lossy(bytes).replace(CLEARED, "\r");
    let bytes = bytes.as_bytes();
    let size = |n| NonZeroU16::new(n).expect("a size above zero");
    let mut screen = vt100::Parser::new(size(HIGH), size(columns), 0);
    screen.process(bytes);
    screen.screen().contents()
}

/// What stands at the end of every question: the keys that are good everywhere.
const COMMON: &str = "[o] [?] [!]";

/// What stands below a page that is not the last.
const MORE: &str = "[Enter] more";

/// Whether a question offers keys of its own: one letter or digit, or a key with a name, and what it does.
fn offers_its_own(said: &str) -> bool {
    let page = said.rfind(MORE).map_or(0, |at| at + MORE.len());
    let Some(before) = said[page..].strip_suffix(COMMON) else { return false };
    let Some((head, does)) = before.rsplit_once("] ") else { return false };
    let key = head.rsplit_once('[').map_or("", |(_, key)| key);
    let is_key = key.chars().count() == 1 || ["Enter", "Space"].contains(&key);
    is_key && key != "!" && !does.trim().is_empty()
}

/// What was said before a reminder that came while the question stayed.
fn before_reminder(said: &str) -> &str {
    let keys = said.rfind(COMMON).unwrap_or_default();
    let reminder = ["DUE: ", "TIME MISSED: "].iter().filter_map(|word| said[keys..].find(word)).min();
    reminder.map_or(said, |at| said[..keys + at].trim_end())
}

fn waits_for(said: &str, what: Waits, speech: Speech, words: &str) -> bool {
    match (what, speech) {
        (Waits::Key, _) => {
            let said = before_reminder(said);
            let inner =
                ["type it again", "time it again", "stop the job", "back to the steps", "before this"];
            offers_its_own(said) || inner.iter().any(|end| said.ends_with(end))
        }
        // Linear text: a line typed early is a line typed.
        (Waits::Line, Speech::Plain) => !words.is_empty(),
        (Waits::Line, _) => said.ends_with(" >"),
        (Waits::List, Speech::Plain) => said.ends_with("Enter alone goes back."),
        (Waits::List, _) => said.contains("Escape goes back."),
        (Waits::Time, Speech::Plain) => said.ends_with("Enter does something else meanwhile."),
        (Waits::Time, _) => said.contains("left, over at"),
    }
}

fn asks(said: &str, speech: Speech) -> bool {
    let is_asked = said.ends_with([':', '?']) || waits_for(said, Waits::List, speech, "");
    kind(said).is_some() || (speech == Speech::Plain && is_asked)
}

/// What a question at a capable terminal waits for.
fn kind(said: &str) -> Option<Waits> {
    let kinds = [Waits::Key, Waits::Line, Waits::List, Waits::Time];
    kinds.into_iter().find(|what| waits_for(said, *what, Speech::Colour, ""))
}
