//! `bayhand show`

use super::arguments::Show;
use super::context::Context;
use super::{Exit, inputs};
use crate::terminal;

/// Shows a procedure: what it needs and every step; with the figures of one vehicle where its sheet is given.
pub(super) fn show(context: &Context, command: &Show) -> Exit {
    match inputs::book(context, &command.file, command.vehicle.as_deref()) {
        Ok((book, _)) => context.show(&terminal::overview(&book.procedure, book.sheet.as_ref())),
        Err(exit) => exit,
    }
}
