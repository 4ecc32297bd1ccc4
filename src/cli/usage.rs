//! Help that was asked for, and a command line that is not right.

use super::Exit;
use super::context::Context;
use crate::system::System;

/// Help that was asked for is no mistake. What is said of a command line repeats words of it, and so has no attributes.
pub(super) fn help_or_mistake(system: &System, error: &clap::Error) -> Exit {
    let context = Context::new(system.clone(), None, false);
    let said = error.render();
    if error.use_stderr() {
        context.say_plainly(&said.to_string());
        return Exit::Usage;
    }
    context.write_help(&said.to_string(), &said.ansi().to_string())
}
