//! `bayhand kit`

use std::path::Path;

use super::arguments;
use super::context::Context;
use super::{Exit, inputs, job};
use crate::kit::{Kit, csv, job_kit, json, markdown, procedure_kit};
use crate::run::{Book, State, View};
use crate::terminal::{self, Text};

/// Shows what has to be laid out before a procedure or a job, with amounts for one vehicle where its sheet is given.
pub(super) fn kit(context: &Context, command: &arguments::Kit) -> Exit {
    match told(context, command) {
        Ok(exit) | Err(exit) => exit,
    }
}

fn told(context: &Context, command: &arguments::Kit) -> Result<Exit, Exit> {
    let vehicle = command.vehicle.as_deref();
    if let Some(path) = job::path_of(context, &command.file.to_string_lossy()) {
        let kit = of_job(context, &path, vehicle)?;
        return Ok(written(context, command, Kit::Job(&kit), || terminal::job_kit(&kit, command.evenings)));
    }
    let (book, _) = inputs::book(context, &command.file, vehicle)?;
    let (state, now) = (State::default(), context.system.now());
    let view = View::new(&book, &state, &now);
    let kit = procedure_kit(view);
    Ok(written(context, command, Kit::Procedure(&kit), || terminal::kit(view)))
}

/// What a whole job takes.
fn of_job(context: &Context, path: &Path, vehicle: Option<&Path>) -> Result<crate::kit::JobKit, Exit> {
    let job = job::job_at(context, path)?;
    let folder = path.parent().unwrap_or(Path::new(""));
    let (state, now) = (State::default(), context.system.now());
    let kit = |book: &Book| procedure_kit(View::new(book, &state, &now));
    let books = job.procedures.iter().map(|one| inputs::book(context, &folder.join(&one.address), vehicle));
    let kits: Vec<_> = books.map(|book| Ok(kit(&book?.0))).collect::<Result<_, Exit>>()?;
    Ok(job_kit(&job, kits))
}

/// Writes a kit in the form that is wanted; as text without any.
fn written(
    context: &Context,
    command: &arguments::Kit,
    kit: Kit<'_>,
    as_text: impl FnOnce() -> Text,
) -> Exit {
    if command.form.markdown {
        return context.write(&markdown(kit));
    }
    if command.form.csv {
        return context.write(&csv(kit));
    }
    if !command.form.json {
        return context.show(&as_text());
    }
    match json(kit) {
        Ok(json) => context.write_json(&json),
        Err(error) => context.trouble(&error),
    }
}
