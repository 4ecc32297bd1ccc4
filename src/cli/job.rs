//! `bayhand run JOB`, `bayhand status JOB`

use std::path::Path;

use jiff::ZonedDateTime;

use super::arguments::Run;
use super::context::Context;
use super::going_on::{Given, now, resume};
use super::job_runs::{Open, open};
pub(super) use super::job_runs::{job_at, path_of};
use super::running::{answered, script, talked, tell_of_those_not_begun};
use super::{Exit, inputs, job_record};
use crate::answers::JobScript;
use crate::catalogue::Catalogue;
use crate::job::{self, Planned, Stands};
use crate::journal::{Pinned, Runs};
use crate::procedure::CheckedProcedure;
use crate::quantity::{Unit, parse_entry};
use crate::session::{Beginning, LiveRun, StoredRun};
use crate::terminal::{
    self, Bell, Guard, Heard, Line, Paged, Text, Ui, WholeJob, job_at_start, job_standing,
};

/// Shows a whole job.
pub(super) fn status(context: &Context, path: &Path) -> Result<Exit, Exit> {
    let now = context.system.now();
    let open = open(context, &context.runs()?, path, &now, false)?;
    Ok(context.show(&shown(&open, &now, job_standing)))
}

/// The procedures of a job.
pub(super) fn procedures(context: &Context, path: &Path) -> Result<Vec<CheckedProcedure>, Exit> {
    let folder = path.parent().unwrap_or(Path::new(""));
    let listed = job_at(context, path)?.procedures;
    listed
        .iter()
        .map(|one| Ok(inputs::book(context, &folder.join(&one.address), None)?.0.procedure))
        .collect()
}

fn shown(open: &Open, now: &ZonedDateTime, show: impl Fn(&WholeJob<'_>) -> Text) -> Text {
    let stands = job::standing(&open.job, &open.runs, now);
    let whole = WholeJob { job: &open.job, stands: &stands, runs: &open.runs, record: &open.record(), now };
    open.namesakes.iter().fold(show(&whole), |text, words| text.line(Line::plain(words).hang(2)))
}

/// Offers what can be done now, and runs it.
pub(super) fn run(context: &Context, command: &Run, path: &Path) -> Result<Exit, Exit> {
    tell_of_those_not_begun(context, &Catalogue::sweep(&context.runs()?));
    match &command.answers {
        Some(answers) => from_file(context, command, path, answers),
        None => at_the_terminal(context, command, path),
    }
}

fn at_the_terminal(context: &Context, command: &Run, path: &Path) -> Result<Exit, Exit> {
    let runs = context.runs()?;
    let now = context.system.now();
    let open = open(context, &runs, path, &now, command.new)?;
    let offered = offered(context, command, &open, &now)?;
    let Some(place) = chosen(context, &open, &offered, &now)? else { return Ok(Exit::Done) };
    let Some(planned) = open.job.procedures.get(place) else { return Ok(Exit::Done) };
    let (live, news) = begin(context, command, &runs, (&open, planned), None)?;
    talked(context, (&runs, &open.closed), command, (live, &news))
}

/// The places of what can be done now, alone or by two, in the time there is.
fn offered(context: &Context, command: &Run, open: &Open, now: &ZonedDateTime) -> Result<Vec<usize>, Exit> {
    let hours = Unit::parse("h").map_err(|error| context.found(&error))?;
    let within = command.within.as_deref().map(|text| parse_entry(text, &hours)).transpose();
    let within = within.map_err(|error| context.found(&format!("--within: {error}")))?;
    let fits = |planned: &Planned| {
        let time = if command.alone {
            planned.alone.as_ref()
        } else {
            planned.two.as_ref().or(planned.alone.as_ref())
        };
        let is_long = time
            .zip(within.as_ref())
            .is_some_and(|(time, most)| time.compare(&most.asked).is_ok_and(std::cmp::Ordering::is_gt));
        let takes_two = command.alone && planned.alone.is_none() && planned.two.is_some();
        !is_long && !takes_two
    };
    let stands = job::standing(&open.job, &open.runs, now);
    let all = open.job.procedures.iter().zip(&stands).enumerate();
    let can = all.filter(|(_, (planned, stands))| match stands {
        Stands::Open(..) => true,
        Stands::Ready => fits(planned),
        _ => false,
    });
    Ok(can.map(|(place, _)| place).collect())
}

fn chosen(
    context: &Context,
    open: &Open,
    offered: &[usize],
    now: &ZonedDateTime,
) -> Result<Option<usize>, Exit> {
    let manner = context.manner();
    let _guard = Guard::start(manner, Text::new()).map_err(|error| context.trouble(&error))?;
    let mut ui = terminal::open(manner, Bell::Silent).map_err(|error| context.trouble(&error))?;
    let mut ui = Paged::new(&mut *ui);
    ui.say(&shown(open, now, job_at_start).blank()).map_err(|error| context.trouble(&error))?;
    let titles = offered.iter().filter_map(|place| open.job.procedures.get(*place));
    let titles: Vec<String> = titles.map(|planned| planned.title.clone()).collect();
    if titles.is_empty() {
        let words = "Nothing of this job can be begun now; what it waits for stands above.";
        ui.say(&Text::plain(words)).map_err(|error| context.trouble(&error))?;
        return Ok(None);
    }
    match ui.ask_choice("What is done now?", &titles, 0).map_err(|error| context.trouble(&error))? {
        Heard::Chosen(place) => Ok(offered.get(place).copied()),
        _ => Ok(None),
    }
}

/// Begins a procedure of the job, or goes on with its run.
fn begin(
    context: &Context,
    command: &Run,
    runs: &Runs,
    (open, planned): (&Open, &Planned),
    script: Option<&(crate::answers::Script, crate::source::SourceText)>,
) -> Result<(LiveRun, String), Exit> {
    let path = open.folder.join(&planned.address);
    let is_open = |run: &&StoredRun| run.book.procedure.id() == planned.id && run.state.closed.is_none();
    if let Some(run) = open.runs.iter().find(is_open) {
        let given = Given::of(context, command, Some(context.read(&path)?))?;
        return resume(context, runs, &run.id, &given, script);
    }
    let (book, sheet) = inputs::book_in_job(context, &path, command.vehicle.as_deref(), &open.runs)?;
    let pinned = Pinned::of(&book.procedure, sheet.as_ref());
    let from = script.map(|(_, text)| text.name().to_owned());
    let place = open.job.procedures.iter().position(|one| one.id == planned.id).unwrap_or_default();
    let beginning = Beginning {
        job: Some(open.tag.clone()),
        inherited: job::inherited(&open.job, place, &open.runs),
        answered_from: from,
    };
    let begun = LiveRun::start_in_job(runs, book, pinned, &beginning, &now(context, script));
    let live = begun.map_err(|error| context.not_taken(&error))?;
    open.origin.keep(runs, &live.run.id, &path);
    let news = format!("Run {} of the job {} begins.", live.run.id, open.job.title);
    Ok((live, news))
}

/// Whether a file of answers goes on with the newest job: what it answers first can be done there.
fn goes_on(context: &Context, runs: &Runs, path: &Path, read: &JobScript) -> Result<bool, Exit> {
    let now = context.system.now();
    let open = open(context, runs, path, &now, false)?;
    let stands = job::standing(&open.job, &open.runs, &now);
    let first = read.runs.first().map(|one| one.procedure.as_str());
    let mut listed = open.job.procedures.iter().zip(stands);
    let can_be_done = |stands: &Stands| !matches!(stands, Stands::Done(..) | Stands::Waits(_));
    Ok(listed.any(|(planned, stands)| Some(planned.id.as_str()) == first && can_be_done(&stands)))
}

fn from_file(context: &Context, command: &Run, path: &Path, answers: &Path) -> Result<Exit, Exit> {
    let text = context.read(answers)?;
    let read = JobScript::read(text.text()).map_err(|mistakes| {
        context.diagnose(&mistakes, &text);
        Exit::Found
    })?;
    let runs = context.runs()?;
    let mut last = context.system.now();
    let mut is_new = command.new || !goes_on(context, &runs, path, &read)?;
    for one in &read.runs {
        let beside = answers.parent().unwrap_or(Path::new("")).join(&one.answers);
        let script = script(context, &beside)?;
        last.clone_from(&script.0.clock);
        let open = open(context, &runs, path, &last, is_new)?;
        is_new = false;
        let stands = job::standing(&open.job, &open.runs, &last);
        let mut listed = open.job.procedures.iter().zip(stands);
        let Some((planned, stands)) = listed.find(|(planned, _)| planned.id == one.procedure) else {
            return Err(context.found(&format!("`{}` is no procedure of this job", one.procedure)));
        };
        if !matches!(stands, Stands::Ready | Stands::Open(..)) {
            return Err(context.found(&format!("`{}` cannot be done yet", one.procedure)));
        }
        let (mut live, news) = begin(context, command, &runs, (&open, planned), Some(&script))?;
        live.look_for_files_in(super::running::beside(Some(&beside)));
        let ended = answered(context, &runs, live, &news, &script.0, &script.1)?;
        if ended != Exit::Done {
            return Ok(ended);
        }
    }
    let open = open(context, &runs, path, &last, false)?;
    let record = job_record::kept(context, &runs, &open)?.record;
    if record.is_complete() {
        return Ok(job_record::show(context, &record));
    }
    let newest = open.runs.iter().filter_map(|run| Some(&run.events.last()?.1.at));
    let last = newest.max_by_key(|at| at.timestamp()).unwrap_or(&last);
    Ok(context.show(&shown(&open, last, job_standing)))
}
