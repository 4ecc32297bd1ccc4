//! Going on with an open run: what somebody who takes it up again has to know.

use std::path::Path;

use jiff::ZonedDateTime;

use super::arguments::Run;
use super::context::Context;
use super::{Exit, beside, inputs};
use crate::answers::Script;
use crate::journal::{RunId, Runs};
use crate::procedure::{Library, Linked};
use crate::run::{Ask, Input};
use crate::session::LiveRun;
use crate::source::SourceText;

/// Opens a run and takes it up again, with a line that says what became of it.
pub(super) fn resume(
    context: &Context,
    runs: &Runs,
    id: &RunId,
    given: &Given<'_>,
    script: Option<&(Script, SourceText)>,
) -> Result<(LiveRun, String), Exit> {
    let mut live = LiveRun::open(runs, id).map_err(|error| context.not_opened(&error))?;
    if let Some(words) = copied(runs, &live) {
        return Err(context.found(&words));
    }
    if let Some(fault) = beside::cut_off(&context.system, &runs.folder(id), live.run.events.len()) {
        return Err(context.found(&fault));
    }
    let now = going_on(now(context, script), script, &live);
    let closed = live.run.view(&now).next().ask == Ask::Finished;
    if closed {
        return Err(context.found(&format!("run {id} is closed; `bayhand record {id}` shows its record")));
    }
    if script.is_some() && live.run.start().is_some_and(|start| start.answered_from.is_none()) {
        return Err(context.found(&format!(
            "run {id} was begun by a person, and its record would not tell a file's answers from theirs; go on with it \
             without `--answers`, or begin another with `--new`"
        )));
    }
    let news = news_of(&live, given) + &elsewhere(runs, id);
    live.take(Input::Resume, &now).map_err(|error| context.not_taken(&error))?;
    Ok((live, news))
}

/// A copy beside its original is not gone on with: they would become two runs of one name.
fn copied(runs: &Runs, live: &LiveRun) -> Option<String> {
    let (id, named) = (&live.run.id, live.run.own_name()?);
    let original = RunId::parse(named).ok().filter(|original| original != id)?;
    let is_there = runs.read(&original).is_ok();
    is_there.then(|| {
        format!(
            "{id} is a copy of run {original}, which is here too; `bayhand run {original}` goes on with it. A copy is gone \
             on with in another data folder, under the name of its original"
        )
    })
}

/// Whoever goes on with a copy of all runs is told that the original is still there.
fn elsewhere(runs: &Runs, id: &RunId) -> String {
    let original = runs.original_elsewhere(id);
    original.map(|folder| format!(" This is a copy: its original is still in {folder}.")).unwrap_or_default()
}

/// The clock of a file of answers does not go back behind what was answered already.
fn going_on(now: ZonedDateTime, script: Option<&(Script, SourceText)>, live: &LiveRun) -> ZonedDateTime {
    let last = live.run.state.last.as_ref().filter(|_| script.is_some());
    last.map(|last| last.at.clone()).filter(|last| *last > now).unwrap_or(now)
}

/// The files that the command names, to be held against those that an open run began with.
pub(super) struct Given<'c> {
    context: &'c Context,
    command: &'c Run,
    procedure: Option<SourceText>,
    sheet: Option<SourceText>,
}

impl<'c> Given<'c> {
    pub(super) fn of(
        context: &'c Context,
        command: &'c Run,
        procedure: Option<SourceText>,
    ) -> Result<Self, Exit> {
        let sheet = command.vehicle.as_deref().map(|path| context.read(path)).transpose()?;
        Ok(Self { context, command, procedure, sheet })
    }

    /// The addresses of the linked procedures that are not what the run began with.
    fn changed_links(&self, live: &LiveRun) -> Vec<String> {
        if self.procedure.is_none() {
            return Vec::new();
        }
        let files = inputs::Beside { context: self.context, path: Path::new(&self.command.what) };
        let is_other = |linked: &&Linked| match files.find(&linked.address) {
            Ok(text) => text.text() != linked.text.text(),
            Err(_) => true,
        };
        let linked = live.run.book.procedure.linked().iter().filter(is_other);
        linked.map(|linked| linked.address.clone()).collect()
    }
}

/// What somebody who takes a run up again has to know of its files.
fn news_of(live: &LiveRun, given: &Given<'_>) -> String {
    let torn = live.run.contents.torn.as_ref().map(|torn| {
        format!(
            " Line {} of its journal was cut off when it ended; that answer was never acknowledged and is asked again.",
            torn.line
        )
    });
    let pinned = &live.run.pinned;
    let is_other = |given: &SourceText, pinned: &str| given.text() != pinned;
    let procedure = given.procedure.as_ref().filter(|text| is_other(text, &pinned.procedure));
    let procedure = procedure
        .map(|_| " The procedure was changed since the start: this run keeps to the text it began with.");
    let changed = given.changed_links(live);
    let changed = (!changed.is_empty()).then(|| {
        let names = changed.join("` and `");
        format!(" What it links to was changed since the start, `{names}`: this run keeps to the texts it began with.")
    });
    let sheet = given.sheet.as_ref().and_then(|sheet| match &pinned.vehicle {
        None => Some(
            " This run began without a vehicle sheet, and the one named now is not used: the vehicle's values are asked \
             for, each with its source. To work by a sheet, begin a run with `--new`.",
        ),
        Some(own) => is_other(sheet, own).then_some(
            " The vehicle sheet is not the one that this run began with: the run keeps to its own. For another vehicle, \
             begin a run with `--new`.",
        ),
    });
    let words = [torn, procedure.map(str::to_owned), changed, sheet.map(str::to_owned)];
    format!("Run {} goes on.{}", live.run.id, words.into_iter().flatten().collect::<String>())
}

/// The clock of the answers, where they have one.
pub(super) fn now(context: &Context, script: Option<&(Script, SourceText)>) -> ZonedDateTime {
    script.map_or_else(|| context.system.now(), |(script, _)| script.clock.clone())
}
