//! A passphrase: asked for at a terminal, and not shown while it is typed.

use std::io::{self, IsTerminal};

use super::clean::clean_line;
use super::door;

/// Asks for it; nothing where nobody can be asked, or nobody answers.
///
/// # Errors
/// When the terminal cannot be used.
pub fn secret(prompt: &str) -> io::Result<Option<String>> {
    let terminal = door::terminal_of_errors();
    if !terminal.is_term() || !io::stdin().is_terminal() {
        return Ok(None);
    }
    asked(&terminal, prompt)
}

/// Nothing is shown from before the prompt on: somebody may type as soon as it stands there.
#[cfg(unix)]
fn asked(terminal: &console::Term, prompt: &str) -> io::Result<Option<String>> {
    use nix::sys::termios::{LocalFlags, SetArg, tcgetattr, tcsetattr};
    let before = tcgetattr(io::stdin())?;
    let mut silent = before.clone();
    silent.local_flags.remove(LocalFlags::ECHO);
    silent.local_flags.insert(LocalFlags::ECHONL);
    tcsetattr(io::stdin(), SetArg::TCSAFLUSH, &silent)?;
    let mut line = String::new();
    let read = terminal.write_str(&clean_line(prompt)).and_then(|()| io::stdin().read_line(&mut line));
    tcsetattr(io::stdin(), SetArg::TCSANOW, &before)?;
    let typed = line.trim_end_matches(['\r', '\n']).to_owned();
    Ok((read? > 0).then_some(typed))
}

#[cfg(not(unix))]
fn asked(terminal: &console::Term, prompt: &str) -> io::Result<Option<String>> {
    terminal.write_str(&clean_line(prompt))?;
    terminal.read_secure_line().map(Some)
}
