//! The run that is meant by the file of its procedure.

use super::Exit;
use super::context::Context;
use crate::catalogue::Catalogue;
use crate::journal::{Broken, JournalError, Named, RunId, Runs};
use crate::session::{NotOpened, StoredRun};

/// What a file of a procedure means among the runs there are.
#[derive(Debug, Default)]
pub(super) struct Meant {
    /// Its newest open run.
    pub(super) open: Option<RunId>,
    /// Open runs of another procedure of that name.
    pub(super) namesakes: Vec<RunId>,
}

/// The newest open run of a procedure.
///
/// A run that cannot be read may be the one that is meant, with protections in force: it is said, and nothing is begun
/// in its place behind the person's back.
pub(super) fn open_run(
    context: &Context,
    runs: &Runs,
    catalogue: &Catalogue,
    named: Named<'_>,
) -> Result<Meant, Exit> {
    if let Some(broken) = catalogue.broken.iter().find(|broken| stands_in_the_way(runs, broken, named)) {
        return Err(or_begin_anew(context, named.name, context.journal_error(&broken.error)));
    }
    let mut meant = Meant::default();
    for (id, run) in catalogue.others.iter().rev() {
        match run {
            Ok(run) if is_open(run, named.name) && !runs.is_of(id, named) => meant.namesakes.push(id.clone()),
            Ok(run) if is_open(run, named.name) => {
                meant.open = Some(id.clone());
                break;
            }
            // It may have ended before its first event was kept: `emptied` says so, and the person judges.
            Ok(_) | Err(NotOpened::Empty) => {}
            Err(error) if may_be_of(runs, id, named) => {
                return Err(or_begin_anew(context, named.name, context.not_opened(error)));
            }
            Err(_) => {}
        }
    }
    Ok(meant)
}

/// The runs of a procedure whose journal is empty: nobody but the person knows whether entries of them were acknowledged.
pub(super) fn emptied<'all>(runs: &Runs, catalogue: &'all Catalogue, named: Named<'_>) -> Vec<&'all RunId> {
    let empty = catalogue.others.iter().filter(|(_, run)| matches!(run, Err(NotOpened::Empty)));
    empty.map(|(id, _)| id).filter(|id| may_be_of(runs, id, named)).collect()
}

fn may_be_of(runs: &Runs, id: &RunId, named: Named<'_>) -> bool {
    id.is_of(named.name) && runs.is_of(id, named)
}

/// A folder without a journal is a run that ended before it began.
fn stands_in_the_way(runs: &Runs, broken: &Broken, named: Named<'_>) -> bool {
    let is_of = RunId::parse(&broken.name).is_ok_and(|id| may_be_of(runs, &id, named));
    is_of && !matches!(broken.error, JournalError::Missing { .. })
}

fn is_open(run: &StoredRun, procedure: &str) -> bool {
    run.state.closed.is_none() && run.start().is_some_and(|start| start.procedure.name == procedure)
}

fn or_begin_anew(context: &Context, procedure: &str, exit: Exit) -> Exit {
    context.complain(&format!(
        "a run of {procedure} cannot be gone on with; `--new` begins another one beside it"
    ));
    exit
}
