//! `bayhand show`

use std::path::{Path, PathBuf};

use super::arguments::Show;
use super::context::Context;
use super::{Exit, inputs, job};
use crate::procedure::{CheckedProcedure, Name};
use crate::run::Book;
use crate::source::suggest;
use crate::terminal::{self, Line, Role, Text};

/// Shows a procedure: what it needs and every step, or one person's part in it; with the figures of one vehicle where its
/// sheet is given. Of a job, each procedure.
pub(super) fn show(context: &Context, command: &Show) -> Exit {
    match shown(context, command) {
        Ok(text) => context.show(&text),
        Err(exit) => exit,
    }
}

fn shown(context: &Context, command: &Show) -> Result<Text, Exit> {
    let role = command.role.as_deref();
    let Some(path) = job::path_of(context, &command.file.to_string_lossy()) else {
        return page(context, &book(context, command, &command.file)?, role);
    };
    let job = job::job_at(context, &path)?;
    let folder = path.parent().unwrap_or(Path::new(""));
    let head = Text::from(Line::new().with(Role::Strong, job.title.as_str()));
    let head = head.line(Line::plain(job.what.as_str()).hang(2));
    let files: Vec<PathBuf> = job.procedures.iter().map(|one| folder.join(&one.address)).collect();
    let books = files.iter().map(|file| book(context, command, file)).collect::<Result<Vec<_>, _>>()?;
    // A role that only some procedures have is in these alone.
    let has_it = |book: &&Book| role.is_none_or(|role| has(&book.procedure, role));
    if let Some(first) = books.first().filter(|_| !books.iter().any(|book| has_it(&book))) {
        return page(context, first, role);
    }
    let pages = books.iter().filter(has_it).map(|book| page(context, book, role));
    pages
        .collect::<Result<Vec<_>, _>>()
        .map(|pages| pages.into_iter().fold(head, |text, page| text.blank().blank().then(page)))
}

fn book(context: &Context, command: &Show, file: &Path) -> Result<Book, Exit> {
    inputs::book(context, file, command.vehicle.as_deref()).map(|(book, _)| book)
}

fn has(procedure: &CheckedProcedure, role: &str) -> bool {
    procedure.roles().contains(&Name::from(role))
}

fn page(context: &Context, book: &Book, role: Option<&str>) -> Result<Text, Exit> {
    let (procedure, sheet) = (&book.procedure, book.sheet.as_ref());
    match role {
        None => Ok(terminal::overview(procedure, sheet)),
        Some(role) if has(procedure, role) => Ok(terminal::part(procedure, sheet, &Name::from(role))),
        Some(role) => {
            let roles: Vec<&str> = procedure.roles().iter().map(|(name, _)| name.as_str()).collect();
            let near = suggest::nearest(role, roles.iter().copied());
            let near = near.map(|near| format!("; did you mean `{near}`?")).unwrap_or_default();
            Err(context
                .found(&format!("`{role}` is no role of it; its roles are: {}{near}", roles.join(", "))))
        }
    }
}
