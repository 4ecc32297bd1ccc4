//! Single keys.

use std::io;

use console::{Key, Term};

use super::raw::OneByOne;
use super::{Tty, strong};
use crate::terminal::heard::{key_name, meant};
use crate::terminal::hints::{offer, offered_only};
use crate::terminal::{Heard, KeyHint};

/// What a press of a key is.
pub(super) enum Press {
    /// A key that can be offered.
    Key(char),
    /// An arrow, a function key.
    Other,
    /// Ctrl-C.
    Interrupt,
    /// Ctrl-D, or no terminal any more.
    Gone,
}

/// Waits for a key. Called while [`OneByOne`] lives, so that no key is lost or echoed between two calls.
pub(super) fn press(term: &Term) -> io::Result<Press> {
    Ok(match term.read_key_raw()? {
        Key::Char('\u{4}') | Key::Unknown => Press::Gone,
        Key::CtrlC => Press::Interrupt,
        Key::Char(key) => Press::Key(key),
        Key::Enter => Press::Key('\n'),
        Key::Escape => Press::Key('\u{1b}'),
        Key::Tab => Press::Key('\t'),
        Key::Backspace => Press::Key('\u{8}'),
        Key::Del => Press::Key('\u{7f}'),
        _ => Press::Other,
    })
}

impl Tty {
    pub(super) fn hear_key(&self, prompt: &str, keys: &[KeyHint]) -> io::Result<Heard> {
        let _one_by_one = OneByOne::begin()?;
        self.write(&strong(prompt).line(offer(keys)))?;
        loop {
            match press(&self.term)? {
                Press::Interrupt => return Ok(Heard::Interrupt),
                Press::Gone => return Ok(Heard::Gone),
                Press::Other => self.write(&offered_only("that key", keys))?,
                Press::Key(typed) => match meant(keys, typed) {
                    Some(key) => return Ok(Heard::Key(key)),
                    None => self.write(&offered_only(&key_name(typed), keys))?,
                },
            }
        }
    }
}
