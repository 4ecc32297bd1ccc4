//! Linear lines of words: for pipes, simple terminals and screen readers.

use std::io::{self, Write};
use std::rc::Rc;
use std::time::Duration;

use super::choosing::{list, none_of_them, place_of_line};
use super::door::bare;
use super::heard::{ESCAPE, key_name, meant};
use super::hints::{not_taken, offer, offered_only};
use super::reminders::Reminders;
use super::ui::{NARROWEST, WIDEST, heard};
use super::{Entry, Heard, KeyHint, Lines, Manner, Reminder, Text, Timing, Ui, Wait, paint};

/// How often a wait looks at the clock.
const LOOK: Duration = Duration::from_secs(1);

/// Speaks in lines and hears lines. Every prompt ends its line, so that a reader of the screen reads it out.
pub struct Plain<R, W> {
    input: R,
    output: W,
    width: usize,
    reminders: Reminders,
}

impl<R: Lines, W: Write> Plain<R, W> {
    /// Lines from here to there, wrapped to 80 columns.
    pub fn new(input: R, output: W) -> Self {
        Self { input, output, width: 80, reminders: Reminders::default() }
    }

    /// The same, wrapped to another width.
    #[must_use]
    pub fn wrapped_to(self, width: usize) -> Self {
        Self { width: width.clamp(NARROWEST, WIDEST), ..self }
    }

    /// What was written to.
    pub fn into_output(self) -> W {
        self.output
    }

    fn write(&mut self, text: &Text) -> io::Result<()> {
        self.output.write_all(bare(&paint(text, self.width, Manner::Lines)).as_bytes())?;
        self.output.flush()
    }

    /// The next line; until it comes, what is due is said.
    fn next_line(&mut self) -> io::Result<Option<String>> {
        while let Some(pause) = self.reminders.pause() {
            if self.input.is_ready(pause)? {
                break;
            }
            if let Some(due) = self.reminders.take_due() {
                self.write(&due)?;
            }
        }
        self.next_sound_line()
    }

    /// The next line that is text; one that is not is refused, and what was asked stays asked.
    fn next_sound_line(&mut self) -> io::Result<Option<String>> {
        loop {
            match self.input.next_line() {
                Err(error) if error.kind() == io::ErrorKind::InvalidData => {
                    self.write(&not_taken(&error))?;
                }
                other => return other,
            }
        }
    }

    /// A line where any will do, whatever stands in it; whether one came.
    fn any_line(&mut self) -> io::Result<Option<String>> {
        match self.input.next_line() {
            Err(error) if error.kind() == io::ErrorKind::InvalidData => Ok(Some(String::new())),
            other => other,
        }
    }

    fn hear_time(&mut self, timing: &Timing) -> io::Result<Heard> {
        self.write(&Text::plain(&format!("{}: the stopwatch runs. Enter stops it.", timing.label)))?;
        let began = (timing.ticks)();
        let line = self.any_line()?;
        let took = (timing.ticks)().saturating_sub(began);
        Ok(line.map_or(Heard::Gone, |_| Heard::Timed(took)))
    }

    fn hear_key(&mut self, prompt: &str, keys: &[KeyHint]) -> io::Result<Heard> {
        self.write(&Text::plain(prompt).then(offer(keys)))?;
        while let Some(line) = self.next_line()? {
            if let Some(key) = key_of_line(keys, &line) {
                return Ok(Heard::Key(key));
            }
            self.write(&offered_only(&line, keys))?;
        }
        Ok(Heard::Gone)
    }

    fn hear_text(&mut self, prompt: &str) -> io::Result<Heard> {
        self.write(&Text::plain(prompt))?;
        Ok(self.next_line()?.map_or(Heard::Gone, |line| {
            let is_escape = line.trim().chars().eq([ESCAPE]);
            Heard::Text(if is_escape { String::new() } else { line })
        }))
    }

    fn hear_choice(&mut self, prompt: &str, items: &[String]) -> io::Result<Heard> {
        self.write(&list(prompt, items))?;
        while let Some(line) = self.next_line()? {
            if let Some(place) = place_of_line(items, &line) {
                return Ok(Heard::Chosen(place));
            }
            if line.trim().is_empty() {
                return Ok(Heard::Interrupt);
            }
            self.write(&none_of_them(&line, items))?;
        }
        Ok(Heard::Gone)
    }

    fn hear_wait(&mut self, wait: &Wait) -> io::Result<Heard> {
        let outlook = wait.outlook(wait.left());
        self.write(&Text::plain(&format!(
            "{}: {outlook}. Enter does something else meanwhile.",
            wait.label
        )))?;
        while !wait.left().is_zero() {
            if self.input.is_ready(wait.left().min(LOOK))? {
                return Ok(self.any_line()?.map_or(Heard::Gone, |line| Heard::Key(first_key(&line))));
            }
        }
        Ok(Heard::Elapsed)
    }
}

impl<R: Lines, W: Write> Ui for Plain<R, W> {
    fn say(&mut self, text: &Text) -> io::Result<()> {
        self.write(text)
    }

    fn ask_key(&mut self, prompt: &str, keys: &[KeyHint]) -> io::Result<Heard> {
        heard(self.hear_key(prompt, keys))
    }

    fn ask_text(&mut self, prompt: &str, _entry: Entry) -> io::Result<Heard> {
        heard(self.hear_text(prompt))
    }

    fn ask_choice(&mut self, prompt: &str, items: &[String], _start: usize) -> io::Result<Heard> {
        super::ui::refuse_empty(items)?;
        heard(self.hear_choice(prompt, items))
    }

    fn wait(&mut self, wait: &Wait) -> io::Result<Heard> {
        heard(self.hear_wait(wait))
    }

    fn time(&mut self, timing: &Timing) -> io::Result<Heard> {
        heard(self.hear_time(timing))
    }

    fn remind(&mut self, ticks: Rc<dyn Fn() -> Duration>, reminders: Vec<Reminder>) {
        self.reminders = Reminders::new(ticks, reminders);
    }

    fn clear_for_screen(&mut self) -> io::Result<()> {
        self.write(&Text::new().blank())
    }

    fn keeps_what_was_said(&self) -> bool {
        true
    }

    fn width(&self) -> usize {
        self.width
    }

    fn height(&self) -> usize {
        24
    }
}

/// The key that a line means: the key itself, its name, or the words of what it does.
fn key_of_line(keys: &[KeyHint], line: &str) -> Option<char> {
    let line = line.trim();
    let mut chars = line.chars();
    match (chars.next(), chars.next()) {
        (None, _) => meant(keys, '\n').map(|hint| hint.key),
        (Some(only), None) => meant(keys, only).map(|hint| hint.key),
        _ => spelled_out(keys, &line.to_lowercase()),
    }
}

fn spelled_out(keys: &[KeyHint], line: &str) -> Option<char> {
    let is_it =
        |hint: &&KeyHint| hint.does.to_lowercase() == line || key_name(hint.key).to_lowercase() == line;
    keys.iter().find(is_it).map(|hint| hint.key)
}

fn first_key(line: &str) -> char {
    line.trim().chars().next().unwrap_or('\n')
}
