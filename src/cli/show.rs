//! `bayhand show`

use super::arguments::Show;
use super::context::Context;
use super::{Exit, inputs};
use crate::terminal;

/// Shows a procedure: what it needs and every step.
pub(super) fn show(context: &Context, command: &Show) -> Exit {
    let input = match inputs::procedure(context, &command.file) {
        Ok(input) => input,
        Err(exit) => return exit,
    };
    if let Some(procedure) = &input.own.value {
        return context.show(&terminal::overview(procedure));
    }
    input.diagnose(context);
    Exit::Found
}
