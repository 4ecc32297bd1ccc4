//! `bayhand kit`

use super::arguments::Kit;
use super::context::Context;
use super::kit_data::kit_json;
use super::{Exit, inputs, job};
use crate::run::{State, View};
use crate::terminal;

/// Shows what has to be laid out before a job, with amounts for one vehicle where its sheet is given.
pub(super) fn kit(context: &Context, command: &Kit) -> Exit {
    if let Some(path) = job::path_of(context, &command.file.to_string_lossy()) {
        return job::kit(context, &path, command.vehicle.as_deref()).unwrap_or_else(|exit| exit);
    }
    let book = match inputs::book(context, &command.file, command.vehicle.as_deref()) {
        Ok((book, _)) => book,
        Err(exit) => return exit,
    };
    let (state, now) = (State::default(), context.system.now());
    let view = View::new(&book, &state, &now);
    if !command.json {
        return context.show(&terminal::kit(view));
    }
    match kit_json(view) {
        Ok(json) => context.write(&(json + "\n")),
        Err(error) => context.trouble(&error),
    }
}
