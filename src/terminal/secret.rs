//! A passphrase: asked for at a terminal, and not shown while it is typed.

use std::io::{self, IsTerminal};

/// Asks for it; nothing where nobody can be asked.
///
/// # Errors
/// When the terminal cannot be used.
pub fn secret(prompt: &str) -> io::Result<Option<String>> {
    let terminal = console::Term::stderr();
    if !terminal.is_term() || !io::stdin().is_terminal() {
        return Ok(None);
    }
    terminal.write_str(prompt)?;
    terminal.read_secure_line().map(Some)
}
