//! What does not fit a screen with its question is shown page by page, from its beginning: nothing scrolls away unread.

use std::io;
use std::rc::Rc;
use std::time::Duration;

use super::hints::offer;
use super::paint::{broken, fits_after, page};
use super::{Entry, Heard, KeyHint, Manner, Reminder, Text, Timing, Ui, Wait, rows};

/// Holds back what is said until something is asked, when it is known how much room there is for it.
pub struct Paged<'a> {
    ui: &'a mut dyn Ui,
    held: Text,
}

/// The row that a cursor stands in below what is asked.
const CURSOR: usize = 1;
/// What moves, and how it is answered, below what is waited for or timed.
const MOVING: usize = 3;

impl<'a> Paged<'a> {
    /// Speaks through this.
    pub fn new(ui: &'a mut dyn Ui) -> Self {
        Self { ui, held: Text::new() }
    }

    /// Shows what was held back, above so many rows.
    ///
    /// What comes back when something else than the next page is wanted.
    fn show(&mut self, below: usize) -> io::Result<Option<Heard>> {
        let text = std::mem::take(&mut self.held);
        if self.ui.keeps_what_was_said() || self.fits(&text, below) {
            return self.ui.say(&text).map(|()| None);
        }
        let (width, height) = (self.ui.width(), self.ui.height());
        let (room, beside) = (height.saturating_sub(1 + CURSOR).max(1), height.saturating_sub(below).max(1));
        let text = broken(text.tight(), width, room.min(beside));
        let (mut pages, last) = fits_after(text, width, beside);
        let more = [KeyHint::new('\n', "more")];
        while pages != Text::new() {
            let (first, rest) = page(pages, width, room);
            self.ui.say(&first)?;
            match self.ui.ask_key("", &more)? {
                Heard::Key(_) => {}
                other => return Ok(Some(other)),
            }
            self.ui.clear_for_screen()?;
            pages = rest;
        }
        self.ui.say(&last).map(|()| None)
    }

    fn fits(&self, text: &Text, below: usize) -> bool {
        self.rows(text) + below <= self.ui.height()
    }

    fn rows(&self, text: &Text) -> usize {
        rows(text, self.ui.width(), Manner::Mono)
    }

    /// Shows what was held back, then asks.
    fn then(
        &mut self,
        below: usize,
        ask: impl FnOnce(&mut dyn Ui) -> io::Result<Heard>,
    ) -> io::Result<Heard> {
        match self.show(below)? {
            None => ask(self.ui),
            Some(other) => Ok(other),
        }
    }
}

impl Drop for Paged<'_> {
    fn drop(&mut self) {
        // Nothing is asked any more; where it cannot be shown, nobody is there.
        let _ = self.ui.say(&std::mem::take(&mut self.held));
    }
}

impl Ui for Paged<'_> {
    fn say(&mut self, text: &Text) -> io::Result<()> {
        if self.ui.keeps_what_was_said() {
            return self.ui.say(text);
        }
        self.held = std::mem::take(&mut self.held).then(text.clone());
        Ok(())
    }

    fn ask_key(&mut self, prompt: &str, keys: &[KeyHint]) -> io::Result<Heard> {
        let below = self.rows(&Text::plain(prompt).then(offer(keys))) + CURSOR;
        self.then(below, |ui| ui.ask_key(prompt, keys))
    }

    fn ask_text(&mut self, prompt: &str, entry: Entry) -> io::Result<Heard> {
        let below = self.rows(&Text::plain(prompt)) + CURSOR;
        self.then(below, |ui| ui.ask_text(prompt, entry))
    }

    fn ask_choice(&mut self, prompt: &str, items: &[String], start: usize) -> io::Result<Heard> {
        let items_in_sight =
            items.iter().fold(Text::plain(prompt), |text, item| text.then(Text::plain(item)));
        // A list that is longer than the screen moves in half of it.
        let below = self.rows(&items_in_sight).min(self.ui.height() / 2) + 1 + CURSOR;
        self.then(below, |ui| ui.ask_choice(prompt, items, start))
    }

    fn wait(&mut self, wait: &Wait) -> io::Result<Heard> {
        self.then(MOVING, |ui| ui.wait(wait))
    }

    fn time(&mut self, timing: &Timing) -> io::Result<Heard> {
        self.then(MOVING, |ui| ui.time(timing))
    }

    fn remind(&mut self, ticks: Rc<dyn Fn() -> Duration>, reminders: Vec<Reminder>) {
        self.ui.remind(ticks, reminders);
    }

    fn clear_for_screen(&mut self) -> io::Result<()> {
        let held = std::mem::take(&mut self.held);
        if held != Text::new() {
            self.ui.say(&held)?;
        }
        self.ui.clear_for_screen()
    }

    fn keeps_what_was_said(&self) -> bool {
        self.ui.keeps_what_was_said()
    }

    fn width(&self) -> usize {
        self.ui.width()
    }

    fn height(&self) -> usize {
        self.ui.height()
    }
}
