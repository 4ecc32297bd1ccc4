//! Running a procedure: found or started, asked at a terminal or answered from a file.

use std::collections::BTreeMap;
use std::path::Path;
use std::rc::Rc;

use super::arguments::Run;
use super::context::Context;
use super::earlier::earlier;
use super::going_on::{Given, now, resume};
use super::open_run::{Meant, emptied, open_run};
use super::{Exit, inputs, preferences, sealed};
use crate::answers::{ANSWERS_DIFFER, Script};
use crate::catalogue::{Catalogue, Entry};
use crate::journal::{JournalError, Named, NotBegun, Origin, Pinned, RunId, Runs};
use crate::session::LiveRun;
use crate::source::{Diagnostic, SourceText, Span};
use crate::terminal::{self, Bell, Beside, Door, Ended, Guard, Line, Outside, Text, Ui, Walked};

/// Runs a procedure, or goes on with a run.
pub(super) fn run(context: &Context, command: &Run) -> Exit {
    match begin(context, command) {
        Ok(exit) | Err(exit) => exit,
    }
}

fn begin(context: &Context, command: &Run) -> Result<Exit, Exit> {
    let runs = context.runs()?;
    let script = command.answers.as_deref().map(|path| script(context, path)).transpose()?;
    let catalogue = Catalogue::at_start(&runs).map(|(catalogue, not_begun)| {
        tell_of_those_not_begun(context, &not_begun);
        catalogue
    });
    let (mut live, news) = find_or_start(context, command, (&runs, &catalogue), script.as_ref())?;
    if let Some((script, text)) = script {
        live.look_for_files_in(beside(command.answers.as_deref()));
        return answered(context, &runs, live, &news, &script, &text);
    }
    let closed = catalogue.map(|catalogue| catalogue.closed).unwrap_or_default();
    talked(context, (&runs, &closed), command, (live, &news))
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
    (runs, catalogue): (&Runs, &Result<Catalogue, JournalError>),
    script: Option<&(Script, SourceText)>,
) -> Result<(LiveRun, String), Exit> {
    let path = Path::new(&command.what);
    let is_file = path.extension().is_some() || path.components().count() > 1;
    if !is_file {
        let id = RunId::parse(&command.what).map_err(|error| context.journal_error(&error))?;
        return resume(context, runs, &id, &Given::of(context, command, None)?, script);
    }
    let text = context.read(path)?;
    let (name, place) = (inputs::id(path), runs.place(path));
    let named = Named { name: &name, place: &place, text: &text };
    let known = catalogue.as_ref().ok();
    let empty = known.map(|known| emptied_words(&emptied(runs, known, named))).unwrap_or_default();
    let others = known.map(others_open).unwrap_or_default();
    let meant = if command.new {
        Meant::default()
    } else {
        open_run(context, runs, catalogue.as_ref().map_err(|error| context.journal_error(error))?, named)?
    };
    let others = namesakes(runs, &meant.namesakes) + &others;
    let (live, news) = match meant.open {
        Some(id) => resume(context, runs, &id, &Given::of(context, command, Some(text))?, script),
        None => start(context, command, runs, (script, &others)),
    }?;
    Ok((live, news + &empty))
}

/// The same file name is not the same procedure: whoever begins beside an open run of that name is told.
fn namesakes(runs: &Runs, open: &[RunId]) -> String {
    let said = open.iter().map(|id| {
        let place = runs.origin(id).map(|origin| format!(", {}", origin.procedure)).unwrap_or_default();
        format!(" Run {id} is open too, of another procedure of that name{place}; `bayhand run {id}` goes on with it.")
    });
    said.collect()
}

/// Tells what was cleared away that a listing would have shown.
pub(super) fn tell_of_those_not_begun(context: &Context, not_begun: &[NotBegun]) {
    for left in not_begun {
        context.complain(&format!(
            "a start of {} ended before its first entry, so that nothing is lost; what was left of it lies in `{}` now",
            left.run,
            left.kept_in.display()
        ));
    }
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
    let live = live.map_err(|error| context.not_taken(&error))?;
    runs.keep_origin(&live.run.id, Origin { procedure: runs.place(procedure), ..Origin::default() });
    Ok(live)
}

/// Whoever begins a run while others are open is told: what one of them protects may be forgotten.
fn others_open(catalogue: &Catalogue) -> String {
    match &catalogue.open().map(|run| run.id.as_str()).collect::<Vec<_>>()[..] {
        [] => String::new(),
        open => format!(" Not finished yet: {}; `bayhand runs` shows where they stand.", open.join(", ")),
    }
}

pub(super) fn talked(
    context: &Context,
    (runs, closed): (&Runs, &BTreeMap<RunId, Entry>),
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
            earlier: earlier(runs, closed, &live.run),
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
            Ok(record) => record.at_close(sealed::show_head(context, runs, &record)),
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
    let mut ui = terminal::Plain::new(std::io::empty(), Door::output()).wrapped_to(context.width());
    let walked = ui.say(&Text::plain(news)).and_then(|()| terminal::walk(&mut ui, &mut live, script));
    let walked = match walked {
        // Only a reader can go away here: there is no terminal that hangs up.
        Err(error) if error.kind() == std::io::ErrorKind::BrokenPipe => return Ok(Exit::Gone),
        other => other.map_err(|error| context.not_written(error))?,
    };
    match &walked {
        Walked::Closed => sealed::sealed(context, runs, &live.run.id)
            .map(|record| record.at_close(sealed::show(context, &record))),
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
