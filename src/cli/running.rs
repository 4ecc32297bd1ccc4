//! Running a procedure: found or started, asked at a terminal or answered from a file.

use std::path::Path;
use std::rc::Rc;

use jiff::ZonedDateTime;

use super::arguments::Run;
use super::context::Context;
use super::earlier::earlier;
use super::open_run::{emptied, open_run};
use super::{Exit, beside, inputs, preferences, sealed};
use crate::answers::{ANSWERS_DIFFER, Script};
use crate::catalogue::Catalogue;
use crate::journal::{Pinned, RunId, Runs};
use crate::procedure::{Library, Linked};
use crate::run::{Ask, Input};
use crate::session::{LiveRun, NotTaken};
use crate::source::{Diagnostic, SourceText, Span};
use crate::terminal::{self, Bell, Beside, Ended, Guard, Line, Outside, Text, Ui, Walked};

/// Runs a procedure, or goes on with a run.
pub(super) fn run(context: &Context, command: &Run) -> Exit {
    match begin(context, command) {
        Ok(exit) | Err(exit) => exit,
    }
}

fn begin(context: &Context, command: &Run) -> Result<Exit, Exit> {
    let runs = context.runs()?;
    let script = command.answers.as_deref().map(|path| script(context, path)).transpose()?;
    let (mut live, news) = find_or_start(context, command, &runs, script.as_ref())?;
    match script {
        Some((script, text)) => {
            live.look_for_files_in(beside(command.answers.as_deref()));
            answered(context, &runs, live, &news, &script, &text)
        }
        None => talked(context, &runs, command, (live, &news)),
    }
}

/// The folder of a file of answers: the files that it names are looked for there.
pub(super) fn beside(answers: Option<&Path>) -> &Path {
    answers.and_then(Path::parent).unwrap_or(Path::new(""))
}

pub(super) fn script(context: &Context, path: &Path) -> Result<(Script, SourceText), Exit> {
    let text = context.read(path)?;
    match Script::read(text.text()) {
        Ok(script) => Ok((script, text)),
        Err(mistakes) => {
            context.diagnose(&mistakes, &text);
            Err(Exit::Found)
        }
    }
}

/// The run that is meant: named, open for this procedure, or new. With a line that says which.
fn find_or_start(
    context: &Context,
    command: &Run,
    runs: &Runs,
    script: Option<&(Script, SourceText)>,
) -> Result<(LiveRun, String), Exit> {
    let path = Path::new(&command.what);
    let is_file = path.extension().is_some() || path.components().count() > 1;
    if !is_file {
        let id = RunId::parse(&command.what).map_err(|error| context.journal_error(&error))?;
        return resume(context, runs, &id, &Given::of(context, command, None)?, script);
    }
    let text = context.read(path)?;
    let procedure = inputs::id(path);
    let catalogue = Catalogue::read(runs);
    let known = catalogue.as_ref().ok();
    let empty = known.map(|known| emptied_words(&emptied(known, &procedure))).unwrap_or_default();
    let others = known.map(others_open).unwrap_or_default();
    let open = if command.new {
        None
    } else {
        let catalogue = catalogue.map_err(|error| context.journal_error(&error))?;
        open_run(context, catalogue, &procedure)?
    };
    let (live, news) = match open {
        Some(id) => resume(context, runs, &id, &Given::of(context, command, Some(text))?, script),
        None => start(context, command, runs, (script, &others)),
    }?;
    Ok((live, news + &empty))
}

/// An empty journal is said whenever its procedure is run: its run may have protections in force that nobody sees.
fn emptied_words(emptied: &[&RunId]) -> String {
    let said = emptied.iter().map(|id| {
        format!(
            " The journal of {id} is empty and is not gone on with: where entries of it had been acknowledged, leave this \
             run and put its `journal.jsonl` back from a copy."
        )
    });
    said.collect()
}

fn start(
    context: &Context,
    command: &Run,
    runs: &Runs,
    (script, others): (Option<&(Script, SourceText)>, &str),
) -> Result<(LiveRun, String), Exit> {
    let live = start_of(context, runs, (Path::new(&command.what), command.vehicle.as_deref()), script)?;
    let news = format!(
        "Run {} begins. Everything answered is kept at once; `bayhand run {}` goes on with it.{others}",
        live.run.id, live.run.id,
    );
    Ok((live, news))
}

/// A new run of a procedure and a vehicle sheet.
pub(super) fn start_of(
    context: &Context,
    runs: &Runs,
    (procedure, vehicle): (&Path, Option<&Path>),
    script: Option<&(Script, SourceText)>,
) -> Result<LiveRun, Exit> {
    let (book, vehicle) = inputs::book(context, procedure, vehicle)?;
    let pinned = Pinned::of(&book.procedure, vehicle.as_ref());
    let from = script.map(|(_, text)| text.name().to_owned());
    let live = LiveRun::start(runs, book, pinned, from, &now(context, script));
    live.map_err(|error| not_taken(context, &error))
}

/// Whoever begins a run while others are open is told: what one of them protects may be forgotten.
fn others_open(catalogue: &Catalogue) -> String {
    match &catalogue.open().map(|run| run.id.as_str()).collect::<Vec<_>>()[..] {
        [] => String::new(),
        open => format!(" Not finished yet: {}; `bayhand runs` shows where they stand.", open.join(", ")),
    }
}

pub(super) fn resume(
    context: &Context,
    runs: &Runs,
    id: &RunId,
    given: &Given<'_>,
    script: Option<&(Script, SourceText)>,
) -> Result<(LiveRun, String), Exit> {
    let mut live = LiveRun::open(runs, id).map_err(|error| context.not_opened(&error))?;
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
    let news = news_of(&live, given);
    live.take(Input::Resume, &now).map_err(|error| not_taken(context, &error))?;
    Ok((live, news))
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

pub(super) fn not_taken(context: &Context, error: &NotTaken) -> Exit {
    match error {
        NotTaken::Refused(refusal) => context.found(refusal),
        NotTaken::NotKept(error) => context.journal_error(error),
    }
}

pub(super) fn talked(
    context: &Context,
    runs: &Runs,
    command: &Run,
    (mut live, news): (LiveRun, &str),
) -> Result<Exit, Exit> {
    let manner = context.manner();
    let farewell =
        Text::plain(&format!("Everything answered is kept. `bayhand run {}` goes on with it.", live.run.id));
    let guard = Guard::start(manner, farewell.clone()).map_err(|error| context.trouble(&error))?;
    let bell = if command.quiet { Bell::Silent } else { Bell::Rings };
    let mut ui = terminal::open(manner, bell).map_err(|error| context.trouble(&error))?;
    let system = context.system.clone();
    let outside = Outside {
        now: &|| context.system.now(),
        ticks: Rc::new(move || system.ticks()),
        beside: Beside {
            units: preferences::units(context, command.units.as_deref())?,
            earlier: earlier(runs, &live.run),
        },
        farewell: &|left_open| guard.set_farewell(left_open.then(farewell.clone())),
    };
    let is_new = live.run.events.len() == 1;
    let opening = if is_new { terminal::opening(&live.run.book.procedure).blank() } else { Text::new() };
    let zone = context.system.zone_notice().map(|notice| Line::plain(format!("Note: {notice}")).hang(2));
    let opening = zone.into_iter().fold(opening, Text::line).then(Text::plain(news));
    match terminal::talk(&mut *ui, &mut live, &outside, opening) {
        Ok(ended) => Ok(ended_talk(context, runs, &mut *ui, &live, ended, farewell.clone())),
        Err(error) if terminal::is_gone(&error) => Ok(Exit::Gone),
        Err(error) => Err(context.trouble(&error)),
    }
}

fn ended_talk(
    context: &Context,
    runs: &Runs,
    ui: &mut dyn Ui,
    live: &LiveRun,
    ended: Ended,
    farewell: Text,
) -> Exit {
    match ended {
        Ended::Closed => match sealed::sealed(context, runs, &live.run.id) {
            Ok(record) => sealed::show_head(context, runs, &record),
            Err(exit) => exit,
        },
        Ended::Rests => {
            let now = context.system.now();
            let _ = ui.say(&terminal::resting(live.run.view(&now)));
            let _ = ui.say(&farewell);
            Exit::Done
        }
        Ended::Interrupted => {
            let now = context.system.now();
            let _ = ui.say(&terminal::left_open(live.run.view(&now)));
            let _ = ui.say(&farewell);
            Exit::Interrupted
        }
        Ended::Gone => {
            let now = context.system.now();
            context.tell(&terminal::left_open(live.run.view(&now)).then(farewell));
            Exit::Gone
        }
        Ended::NotKept(error) => context.journal_error(&error),
    }
}

pub(super) fn answered(
    context: &Context,
    runs: &Runs,
    mut live: LiveRun,
    news: &str,
    script: &Script,
    text: &SourceText,
) -> Result<Exit, Exit> {
    let mut ui = terminal::Plain::new(std::io::empty(), std::io::stdout()).wrapped_to(context.width());
    let walked = ui.say(&Text::plain(news)).and_then(|()| terminal::walk(&mut ui, &mut live, script));
    let walked = match walked {
        Err(error) if terminal::is_gone(&error) => return Ok(Exit::Gone),
        other => other.map_err(|error| context.trouble(&error))?,
    };
    match &walked {
        Walked::Closed => {
            sealed::sealed(context, runs, &live.run.id).map(|record| sealed::show(context, &record))
        }
        Walked::Rests => Ok(Exit::Done),
        Walked::NotKept(error) => Err(context.journal_error(error)),
        other => {
            let help = format!(
                "mend the file, then `bayhand run {} --answers ...` with the answers from there on",
                live.run.id
            );
            let found = differs(other, text).map(|diagnostic| diagnostic.help(help));
            context.diagnose(&found.into_iter().collect::<Vec<_>>(), text);
            Err(Exit::Found)
        }
    }
}

/// Where a file of answers and the run part; nothing where they go together to the end.
pub(super) fn differs(walked: &Walked, text: &SourceText) -> Option<Diagnostic> {
    let (at, message, label) = match walked {
        Walked::Closed | Walked::Rests | Walked::NotKept(_) => return None,
        Walked::Missing { asked, step } => {
            let end = text.text().trim_end().len();
            (
                Span::new(end, end),
                format!("an answer is missing: `{asked}` is asked next ({step})"),
                "the answers end here".to_owned(),
            )
        }
        Walked::Superfluous { at, asked } => (
            *at,
            format!("this answer is not asked for: the run asks for {asked}"),
            "not asked for here".to_owned(),
        ),
        Walked::NotTaken { at, why, asked } => {
            (*at, format!("this answer to `{asked}` is not taken"), why.clone())
        }
    };
    Some(Diagnostic::error(&ANSWERS_DIFFER, message).at(at, label))
}
