//! Putting the terminal back as it was found, whatever ends the run.

use std::io;

use super::{Manner, Text};

#[cfg(unix)]
mod signals;
#[cfg(unix)]
mod state;

/// Shows the cursor, resets the attributes, ends bracketed paste.
#[cfg(unix)]
const RESET: &str = "\u{1b}[?25h\u{1b}[0m\u{1b}[?2004l";

/// As long as it lives, the terminal comes back as it was found: when it is dropped, on Ctrl-C outside a prompt (exit
/// code 130), SIGTERM (143) and hang-up (129), and after a fault of the program itself. All but the first also say the
/// farewell.
///
/// Start one for the process, on its main thread and before any other thread: the signals are held back from
/// this thread and those it starts, and one thread of its own receives them. A prompt that is interrupted by
/// Ctrl-C is no signal: it answers [`Heard::Interrupt`](super::Heard::Interrupt).
///
/// A signal that cannot be caught (SIGKILL) leaves the terminal as it stands.
pub struct Guard {
    #[cfg(unix)]
    state: std::sync::Arc<state::State>,
}

#[cfg(unix)]
impl Guard {
    /// Remembers the terminal and begins to listen to signals. The farewell says that everything entered is
    /// kept and how the run goes on.
    ///
    /// # Errors
    /// When the signals cannot be held back or no thread can be started.
    pub fn start(manner: Manner, farewell: Text) -> io::Result<Self> {
        let state = std::sync::Arc::new(state::State::remember(manner, farewell));
        signals::listen(std::sync::Arc::clone(&state))?;
        listen_to_faults(std::sync::Arc::clone(&state));
        Ok(Self { state })
    }

    /// Changes the farewell.
    pub fn set_farewell(&self, farewell: Text) {
        self.state.set_farewell(farewell);
    }
}

/// A fault ends the program where it stands, and nothing is dropped any more.
#[cfg(unix)]
fn listen_to_faults(state: std::sync::Arc<state::State>) {
    let usual = std::panic::take_hook();
    std::panic::set_hook(Box::new(move |fault| {
        state.put_back();
        state.say_farewell();
        usual(fault);
    }));
}

#[cfg(unix)]
impl Drop for Guard {
    fn drop(&mut self) {
        self.state.put_back();
    }
}

/// Elsewhere the console of the system looks after itself.
#[cfg(not(unix))]
impl Guard {
    /// Does nothing on this system.
    pub fn start(_manner: Manner, _farewell: Text) -> io::Result<Self> {
        Ok(Self {})
    }

    /// Does nothing on this system.
    pub fn set_farewell(&self, _farewell: Text) {}
}
