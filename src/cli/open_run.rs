//! The run that is meant by the file of its procedure.

use super::Exit;
use super::context::Context;
use crate::catalogue::Catalogue;
use crate::journal::{Broken, JournalError, RunId};
use crate::session::{NotOpened, StoredRun};

/// The newest open run of a procedure.
///
/// A run that cannot be read may be the one that is meant, with protections in force: it is said, and nothing is begun
/// in its place behind the person's back.
pub(super) fn open_run(
    context: &Context,
    catalogue: Catalogue,
    procedure: &str,
) -> Result<Option<RunId>, Exit> {
    if let Some(broken) = catalogue.broken.iter().find(|broken| stands_in_the_way(broken, procedure)) {
        return Err(or_begin_anew(context, procedure, context.journal_error(&broken.error)));
    }
    for (id, run) in catalogue.others.into_iter().rev() {
        match run {
            Ok(run) if is_open(&run, procedure) => return Ok(Some(id)),
            // It may have ended before its first event was kept: `emptied` says so, and the person judges.
            Ok(_) | Err(NotOpened::Empty) => {}
            Err(error) if id.is_of(procedure) => {
                return Err(or_begin_anew(context, procedure, context.not_opened(&error)));
            }
            Err(_) => {}
        }
    }
    Ok(None)
}

/// The runs of a procedure whose journal is empty: nobody but the person knows whether entries of them were acknowledged.
pub(super) fn emptied<'all>(catalogue: &'all Catalogue, procedure: &str) -> Vec<&'all RunId> {
    let own = catalogue.others.iter().filter(|(id, _)| id.is_of(procedure));
    own.filter(|(_, run)| matches!(run, Err(NotOpened::Empty))).map(|(id, _)| id).collect()
}

fn is_open(run: &StoredRun, procedure: &str) -> bool {
    run.state.closed.is_none() && run.start().is_some_and(|start| start.procedure.name == procedure)
}

/// A folder without a journal is a run that ended before it began.
fn stands_in_the_way(broken: &Broken, procedure: &str) -> bool {
    let is_of = RunId::parse(&broken.name).is_ok_and(|id| id.is_of(procedure));
    is_of && !matches!(broken.error, JournalError::Missing { .. })
}

fn or_begin_anew(context: &Context, procedure: &str, exit: Exit) -> Exit {
    context.complain(&format!(
        "a run of {procedure} cannot be gone on with; `--new` begins another one beside it"
    ));
    exit
}
