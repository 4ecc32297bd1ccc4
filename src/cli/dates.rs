//! `bayhand dates`

use std::path::Path;

use super::arguments::Dates;
use super::context::Context;
use super::{Exit, job, job_runs, sealed};
use crate::job::calendar::{MADE_HERE, calendar};
use crate::job::record::dues;
use crate::job::record::model::Due;
use crate::system::Why;
use crate::terminal::{Line, Role, Text};

/// Lists what falls due after a run or a job, and writes it as a calendar.
pub(super) fn dates(context: &Context, command: &Dates) -> Exit {
    match listed(context, command) {
        Ok(exit) | Err(exit) => exit,
    }
}

fn listed(context: &Context, command: &Dates) -> Result<Exit, Exit> {
    let runs = context.runs()?;
    let job = command.what.as_deref().and_then(|name| job::path_of(context, name));
    let mut dues: Vec<Due> = if let Some(path) = job {
        job_runs::open(context, &runs, &path, &context.system.now(), false)?.record().dues
    } else {
        let id = context.named_run(&runs, command.what.as_deref())?;
        dues(&sealed::sealed(context, &runs, &id)?.record).collect()
    };
    let day = |due: &Due| due.due.day().map(|(day, _)| day.to_owned());
    dues.sort_by_key(|due| (day(due).is_none(), day(due)));
    let text = dues.iter().map(line).fold(Text::new(), Text::line);
    if dues.is_empty() {
        return Ok(context.show(&Text::plain("Nothing falls due: no step that sets a date is done.")));
    }
    let Some(to) = &command.to else { return Ok(context.show(&text)) };
    write(context, to, &calendar(&dues))?;
    let written = dues.iter().filter(|due| due.due.day().is_some()).count();
    let words = format!(
        "{written} of {} written to {}, each with a reminder a week before.",
        dues.len(),
        to.display()
    );
    Ok(context.show(&text.blank().line(Line::plain(words).hang(2))))
}

fn line(due: &Due) -> Line {
    let (day, more) = match due.due.day() {
        Some((day, true)) => (day, " (estimated day)"),
        Some((day, false)) => (day, ""),
        None if due.due.odometer.is_some() => (
            "no day",
            "; in no calendar: the sheet does not say `use_per_month`, from which the day is estimated",
        ),
        None => ("no day", "; in no calendar"),
    };
    let words = format!("{}: {}{more} (run {}, step {})", due.due.what, due.due.words, due.run, due.due.step);
    Line::new().with(Role::Strong, format!("{day:<12}")).with(Role::Plain, words).hang(12)
}

/// A calendar that was made here is made anew; any other file is left alone.
fn write(context: &Context, to: &Path, calendar: &str) -> Result<(), Exit> {
    const MOST: u64 = 8 << 20;
    let disk = context.system.disk();
    let written = match disk.write_new(to, calendar.as_bytes()) {
        Err(error) if matches!(error.why, Why::AlreadyThere) => {
            let there = disk.read_text(to, MOST).unwrap_or_default();
            if !there.contains(MADE_HERE) {
                let words =
                    format!("{} is there, and no calendar of bayhand's; name another file", to.display());
                return Err(context.found(&words));
            }
            disk.replace(to, calendar.as_bytes())
        }
        other => other,
    };
    written.map_err(|error| context.trouble(&error))
}
