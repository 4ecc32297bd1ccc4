//! Single keys.

use std::io;
use std::time::Duration;

use console::Key;

use super::raw::OneByOne;
use super::{Tty, strong};
use crate::terminal::heard::{ESCAPE, key_name, meant};
use crate::terminal::hints::{offer, offered_above};
use crate::terminal::input::is_ready;
use crate::terminal::{Heard, KeyHint, KeyKind, Text, Ui, rows};

/// Keys that follow one another faster than this come from one that is held down: no finger is so fast, and every
/// keyboard repeats faster.
const REPEAT: Duration = Duration::from_millis(60);

/// What is said where that pause was not made.
const TOO_SOON: &str = "Read it first: a key counts here after a moment without one.";

/// A key that counts only after a pause counts once no key came for so long.
const PAUSE: Duration = Duration::from_millis(400);

/// What a press of a key is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Press {
    /// A key that can be offered.
    Key(char),
    /// The arrow up.
    Up,
    /// The arrow down.
    Down,
    /// A page up.
    PageUp,
    /// A page down.
    PageDown,
    /// Another arrow, a function key.
    Other,
    /// Ctrl-C.
    Interrupt,
    /// Ctrl-D, or no terminal any more.
    Gone,
}

impl Press {
    /// A press of Escape.
    pub(super) const ESCAPE: Self = Self::Key(ESCAPE);
}

impl Tty {
    pub(super) fn hear_key(&mut self, prompt: &str, keys: &[KeyHint]) -> io::Result<Heard> {
        let _one_by_one = OneByOne::begin()?;
        self.write(&strong(prompt).then(offer(keys)))?;
        let weighed = keys.iter().any(|hint| hint.kind == KeyKind::Weighed);
        let mut refused = Text::new();
        loop {
            let is_rushed = weighed && self.has_key(PAUSE)?;
            self.remind_until_ready(&mut refused)?;
            let pressed = self.next_press()?;
            if self.is_held_on(pressed)? {
                continue;
            }
            let why = match pressed {
                Press::Interrupt => return Ok(Heard::Interrupt),
                Press::Gone => return Ok(Heard::Gone),
                Press::Key(typed) => match meant(keys, typed) {
                    Some(hint) if is_rushed && hint.kind == KeyKind::Weighed => Text::plain(TOO_SOON),
                    Some(hint) => {
                        self.settled = Some(pressed);
                        return Ok(Heard::Key(hint.key));
                    }
                    None => offered_above(&key_name(typed), keys),
                },
                _ => offered_above("that key", keys),
            };
            // One refusal takes the place of the one before, so that what was said stays on the screen.
            self.take_back(&refused)?;
            refused = why;
            self.write(&refused)?;
        }
    }

    /// The key that was pressed ahead, else the next one.
    pub(super) fn next_press(&mut self) -> io::Result<Press> {
        self.ahead.take().map_or_else(|| self.press(), Ok)
    }

    /// Waits for a key. Called while [`OneByOne`] lives, so that no key is lost or echoed between two calls.
    fn press(&mut self) -> io::Result<Press> {
        Ok(match self.term.read_key_raw()? {
            // Bytes that are no key; without a terminal to read them from, nobody is there.
            Key::Unknown if self.term.is_term() => Press::Other,
            Key::Char('\u{4}') | Key::Unknown => Press::Gone,
            Key::CtrlC => Press::Interrupt,
            Key::Char(key) => Press::Key(key),
            Key::Enter => Press::Key('\n'),
            Key::Escape => Press::ESCAPE,
            Key::Tab => Press::Key('\t'),
            Key::Backspace => Press::Key('\u{8}'),
            Key::Del => Press::Key('\u{7f}'),
            Key::ArrowUp => Press::Up,
            Key::ArrowDown => Press::Down,
            Key::PageUp => Press::PageUp,
            Key::PageDown => Press::PageDown,
            // Escape, and a key right after it.
            Key::UnknownEscSeq(rest) => match rest[..] {
                [key] if key != '[' => {
                    self.ahead = Some(Press::Key(key));
                    Press::ESCAPE
                }
                _ => Press::Other,
            },
            _ => Press::Other,
        })
    }

    /// Drops what comes from a key that is held down or was typed before the question was there.
    pub(super) fn drop_burst(&mut self) -> io::Result<()> {
        let _one_by_one = OneByOne::begin()?;
        while is_ready(&io::stdin(), REPEAT)? {
            if self.press()? == Press::Gone {
                break;
            }
        }
        Ok(())
    }

    /// The press that settles what any key settles; none while the key that settled the last question is held down.
    pub(super) fn press_anew(&mut self) -> io::Result<Option<Press>> {
        let pressed = self.next_press()?;
        if self.is_held_on(pressed)? {
            return Ok(None);
        }
        self.settled = Some(pressed);
        Ok(Some(pressed))
    }

    /// Whether a key is still the one that settled the last question, held down: it settles one thing, and the rest of its
    /// row is dropped. Pressed anew it counts.
    pub(super) fn is_held_on(&mut self, pressed: Press) -> io::Result<bool> {
        if self.settled != Some(pressed) || !matches!(pressed, Press::Key(_)) {
            return Ok(false);
        }
        let mut is_held = false;
        while self.ahead.is_none() && is_ready(&io::stdin(), REPEAT)? {
            match self.press()? {
                again if again == pressed => is_held = true,
                other => self.ahead = Some(other),
            }
        }
        Ok(is_held)
    }

    /// Waits for a key; until it comes, what is due is said below the question.
    fn remind_until_ready(&mut self, refused: &mut Text) -> io::Result<()> {
        while let Some(due) = self.due_before_key()? {
            self.take_back(refused)?;
            *refused = Text::new();
            self.write(&due)?;
        }
        Ok(())
    }

    /// What becomes due before a key comes; nothing once the key is there, or where nothing is to come.
    pub(super) fn due_before_key(&mut self) -> io::Result<Option<Text>> {
        while let Some(pause) = self.reminders.pause().filter(|_| self.ahead.is_none()) {
            if is_ready(&io::stdin(), pause)? {
                break;
            }
            if let Some(due) = self.take_due()? {
                return Ok(Some(due));
            }
        }
        Ok(None)
    }

    /// Whether a key is there within this time.
    pub(super) fn has_key(&self, within: Duration) -> io::Result<bool> {
        Ok(self.ahead.is_some() || is_ready(&io::stdin(), within)?)
    }

    /// Takes back the text that was written last.
    fn take_back(&self, text: &Text) -> io::Result<()> {
        self.term.clear_last_lines(rows(text, self.width(), self.manner))
    }
}
