//! A capable terminal: single keys, a line editor, lists to move in, a bar for a wait.

use std::io;
use std::rc::Rc;
use std::time::Duration;

use console::Term;

use super::door::{self, dressed};
use super::hints::not_taken;
use super::input::is_ready;
use super::reminders::Reminders;
use super::ui::{NARROWEST, WIDEST, heard, refuse_empty};
use super::{Bell, Entry, Heard, KeyHint, Manner, Reminder, Role, Text, Timing, Ui, Wait, paint};

mod choice;
mod editor;
mod keys;
mod raw;
mod timing;
mod waiting;

use editor::LineEditor;

/// Speaks to a person at a terminal. Start a [`Guard`](super::Guard) first.
pub struct Tty {
    term: Term,
    manner: Manner,
    bell: Bell,
    editor: LineEditor,
    reminders: Reminders,
    /// The key that settled the last question.
    settled: Option<keys::Press>,
    /// A key that was pressed before its question was there.
    ahead: Option<keys::Press>,
}

impl Tty {
    /// The terminal at the standard streams.
    ///
    /// # Errors
    /// When the terminal cannot be set up for editing a line.
    pub fn new(manner: Manner, bell: Bell) -> io::Result<Self> {
        let (reminders, settled, ahead) = (Reminders::default(), None, None);
        Ok(Self {
            term: door::terminal(),
            manner,
            bell,
            editor: LineEditor::new()?,
            reminders,
            settled,
            ahead,
        })
    }

    fn write(&self, text: &Text) -> io::Result<()> {
        self.term.write_str(&dressed(&paint(text, self.width(), self.manner)))
    }

    /// Calls the person.
    fn ring(&self) -> io::Result<()> {
        self.term.write_str(self.bell.sound())
    }

    /// What is due now, with the bell.
    fn take_due(&mut self) -> io::Result<Option<Text>> {
        let due = self.reminders.take_due();
        due.as_ref().map_or(Ok(()), |_| self.ring())?;
        Ok(due)
    }

    /// Reads a line; one that is no text is refused, and what was asked stays asked.
    fn hear_text(&mut self, prompt: &str, entry: Entry) -> io::Result<Heard> {
        loop {
            match self.hear_line(prompt, entry) {
                Err(error) if error.kind() == io::ErrorKind::InvalidData => {
                    // The rest of it is no answer either.
                    self.drop_burst()?;
                    self.write(&Text::new().blank().then(not_taken(&"it is not UTF-8 text")))?;
                }
                other => return other,
            }
        }
    }

    /// Reads a line; what becomes due meanwhile is said above it.
    fn hear_line(&mut self, prompt: &str, entry: Entry) -> io::Result<Heard> {
        self.write(&strong(prompt))?;
        if entry == Entry::Weighed {
            self.drop_burst()?;
        }
        self.remind_before_line()?;
        let to_come = self.reminders.to_come();
        let (width, manner, sound) = (self.width(), self.manner, self.bell.sound());
        let to_come = to_come
            .into_iter()
            .map(|(left, text)| (left, format!("{sound}{}", dressed(&paint(&text, width, manner)))));
        let heard = self.editor.read(entry, to_come.collect());
        // What was due while the line was typed has been said.
        self.reminders.take_due();
        self.settled = Some(keys::Press::Key('\n'));
        heard
    }

    /// Until the first key of a line comes, what is due is said above the mark.
    fn remind_before_line(&mut self) -> io::Result<()> {
        if self.reminders.pause().is_none() {
            return Ok(());
        }
        let _one_by_one = raw::OneByOne::begin()?;
        self.term.write_str(editor::MARK)?;
        while let Some(pause) = self.reminders.pause() {
            if is_ready(&io::stdin(), pause)? {
                break;
            }
            if let Some(due) = self.take_due()? {
                self.term.clear_line()?;
                self.write(&due)?;
                self.term.write_str(editor::MARK)?;
            }
        }
        self.term.clear_line()
    }
}

impl Ui for Tty {
    fn say(&mut self, text: &Text) -> io::Result<()> {
        self.write(text)
    }

    fn ask_key(&mut self, prompt: &str, keys: &[KeyHint]) -> io::Result<Heard> {
        heard(self.hear_key(prompt, keys))
    }

    fn ask_text(&mut self, prompt: &str, entry: Entry) -> io::Result<Heard> {
        heard(self.hear_text(prompt, entry))
    }

    fn ask_choice(&mut self, prompt: &str, items: &[String], start: usize) -> io::Result<Heard> {
        refuse_empty(items)?;
        heard(self.hear_choice(prompt, items, start))
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
        self.term.clear_screen()
    }

    fn keeps_what_was_said(&self) -> bool {
        false
    }

    fn width(&self) -> usize {
        usize::from(self.term.size().1).clamp(NARROWEST, WIDEST)
    }

    fn height(&self) -> usize {
        usize::from(self.term.size().0)
    }
}

/// A prompt stands out from what was said before it.
fn strong(prompt: &str) -> Text {
    prompt.lines().fold(Text::new(), |text, line| text.line(super::Line::new().with(Role::Strong, line)))
}
