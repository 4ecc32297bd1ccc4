//! What was found at the start, and how to get back to it.

use std::io;
use std::sync::{Mutex, PoisonError};

use nix::sys::termios::{SetArg, Termios, tcgetattr, tcsetattr};

use super::RESET;
use crate::terminal::{Manner, Text, door, paint};

/// Shared by the guard and the thread that receives signals.
pub(super) struct State {
    /// The settings of the terminal, if the input is one.
    found: Mutex<Option<Termios>>,
    manner: Manner,
    farewell: Mutex<Text>,
}

impl State {
    pub(super) fn remember(manner: Manner, farewell: Text) -> Self {
        let found = Mutex::new(tcgetattr(io::stdin()).ok());
        Self { found, manner, farewell: Mutex::new(farewell) }
    }

    pub(super) fn set_farewell(&self, farewell: Text) {
        *self.farewell.lock().unwrap_or_else(PoisonError::into_inner) = farewell;
    }

    /// Puts the terminal back. Nothing can be done about a failure: the terminal is gone.
    pub(super) fn put_back(&self) {
        if let Some(found) = &*self.found.lock().unwrap_or_else(PoisonError::into_inner) {
            let _ = tcsetattr(io::stdin(), SetArg::TCSANOW, found);
        }
        if self.manner != Manner::Lines {
            // Not through the standard library's lock: the thread that holds it may be stuck in a write.
            door::past_the_lock(RESET);
        }
    }

    /// Says the farewell on a line of its own.
    pub(super) fn say_farewell(&self) {
        let farewell = self.farewell.lock().unwrap_or_else(PoisonError::into_inner).clone();
        let text = paint(&farewell, 80, Manner::Lines);
        door::errors_past_the_lock(&format!("\n{text}"));
    }
}
