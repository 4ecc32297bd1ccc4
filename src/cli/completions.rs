//! `bayhand completions`

use clap::CommandFactory;

use super::Exit;
use super::arguments::{Arguments, Completions};
use super::context::Context;

/// Prints the completions for a shell.
pub(super) fn completions(context: &Context, command: &Completions) -> Exit {
    let mut script = Vec::new();
    clap_complete::generate(command.shell, &mut Arguments::command(), "bayhand", &mut script);
    context.write(&String::from_utf8_lossy(&script))
}
