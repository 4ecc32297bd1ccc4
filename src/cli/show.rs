//! `bayhand show`

use super::arguments::Show;
use super::context::Context;
use super::{Exit, inputs};
use crate::source::Severity;
use crate::terminal;

/// Shows a procedure: what it needs and every step.
pub(super) fn show(context: &Context, command: &Show) -> Exit {
    let input = match inputs::procedure(context, &command.file) {
        Ok(input) => input,
        Err(exit) => return exit,
    };
    let errors: Vec<_> =
        input.diagnostics.iter().filter(|found| found.severity == Severity::Error).cloned().collect();
    match &input.value {
        Some(procedure) if errors.is_empty() => context.show(&terminal::overview(procedure)),
        _ => {
            context.diagnose(&errors, &input.text);
            Exit::Found
        }
    }
}
