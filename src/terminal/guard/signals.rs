//! The thread that receives the signals which end a run.

use std::io;
use std::sync::Arc;
use std::thread;
use std::time::Duration;

use nix::sys::signal::{SigSet, Signal};

use super::state::State;

/// The signals that end a run.
const ENDING: [Signal; 3] = [Signal::SIGINT, Signal::SIGTERM, Signal::SIGHUP];

/// How long a prompt at most takes from its first words to waiting for a key.
const SETTLED: Duration = Duration::from_millis(50);

/// Holds the signals back from this thread and its later children, and receives them in a new one.
///
/// They are received one by one instead of by a handler because the exit code depends on which one came, and
/// because ordinary code may run here, which it may not in a handler.
pub(super) fn listen(state: Arc<State>) -> io::Result<()> {
    let ending: SigSet = ENDING.into_iter().collect();
    ending.thread_block()?;
    thread::Builder::new().name("signals".into()).spawn(move || receive(ending, &state))?;
    Ok(())
}

fn receive(ending: SigSet, state: &State) {
    // A process in the background is stopped by the system when it touches the terminal, unless it holds this
    // signal back; it must be able to end there too.
    let _ = SigSet::from(Signal::SIGTTOU).thread_block();
    if let Ok(signal) = ending.wait() {
        state.put_back();
        state.say_farewell();
        // A prompt that was just beginning may have changed the settings after they were put back. By now it
        // waits for a key and changes them no more.
        thread::sleep(SETTLED);
        state.put_back();
        std::process::exit(128 + signal as i32);
    }
}
