//! `bayhand history`

use std::collections::{BTreeMap, BTreeSet};

use super::Exit;
use super::arguments::{History as Command, PageForm};
use super::beside::KEPT_WIDTH;
use super::context::Context;
use super::earlier::vehicle_of;
use super::preferences;
use crate::catalogue::Catalogue;
use crate::journal::{RunId, Runs, read_time};
use crate::print;
use crate::quantity::{Preferred, Quantity, Unit};
use crate::record::history::{
    HISTORY_SCHEMA, History, Taken, Unread, history_csv, history_page, history_plot, history_title, taken,
};
use crate::record::{self, Kept, amount};
use crate::session::StoredRun;
use crate::source::escaped;
use crate::source::suggest::nearest;

/// Prints what a reading, a computed value or a count was each time on a vehicle.
pub(super) fn history(context: &Context, command: &Command) -> Exit {
    if command.form.schema {
        return context.write_to(command.to.as_deref(), HISTORY_SCHEMA);
    }
    let form = gathered(context, command).and_then(|history| formed(context, command, &history));
    match form {
        Ok(text) => context.write_to(command.to.as_deref(), &text),
        Err(exit) => exit,
    }
}

fn formed(context: &Context, command: &Command, history: &History) -> Result<String, Exit> {
    let page = || history_page(history, true);
    let text = |width| print::text(&history_page(history, !context.is_plain()), width);
    if command.svg {
        let what = history.taken.last().map_or(&history.name, |taken| &taken.what);
        let title = history_title(what, &history.name);
        let figure = history_plot(history).ok_or_else(|| {
            context.found(&"there are not two numbers of one kind to draw; without `--svg` all is listed")
        })?;
        return Ok(print::svg(&title, &figure));
    }
    Ok(match command.form {
        PageForm { json: true, .. } => {
            serde_json::to_string_pretty(history).map(|json| escaped(&json) + "\n").unwrap_or_default()
        }
        PageForm { html: true, .. } => print::html(&page()),
        PageForm { markdown: true, .. } => print::markdown(&page()),
        PageForm { csv: true, .. } => history_csv(history),
        _ if command.to.is_some() => text(KEPT_WIDTH),
        _ => text(context.width()),
    })
}

/// What identifies a vehicle, and what its people call it.
type Vehicle = (Option<String>, Option<String>);

/// The runs of all vehicles, and those that cannot be read.
struct Looked {
    of: Vec<(RunId, Vehicle)>,
    unread: Vec<Unread>,
}

fn gathered(context: &Context, command: &Command) -> Result<History, Exit> {
    let runs = context.runs()?;
    let Looked { of, mut unread } = looked(context, &runs)?;
    let (identification, vehicle) = meant(context, command, &of)?;
    let mut by_name: BTreeMap<String, Vec<Taken>> = BTreeMap::new();
    for (id, _) in of.iter().filter(|(_, (of, _))| *of == identification) {
        match record_of(&runs, id) {
            Ok(record) => {
                for (name, taken) in taken(&record) {
                    by_name.entry(name).or_default().push(taken);
                }
            }
            Err(why) => unread.push(Unread { run: id.as_str().to_owned(), why }),
        }
    }
    let wanted =
        command.name.as_deref().unwrap_or_default().trim().trim_start_matches('[').trim_end_matches(']');
    let is_called = |(_, taken): &(&String, &Vec<Taken>)| {
        what(taken).is_some_and(|what| what.to_lowercase() == wanted.to_lowercase())
    };
    let found = by_name.keys().find(|name| *name == wanted);
    let found = found.or_else(|| by_name.iter().find(is_called).map(|(name, _)| name)).cloned();
    let name = found.ok_or_else(|| unknown(context, wanted, &by_name, &unread))?;
    let mut taken = by_name.remove(&name).unwrap_or_default();
    taken.sort_by_cached_key(|taken| {
        (read_time(&taken.at).ok().map(|at| at.timestamp()), taken.run.clone(), taken.entry)
    });
    let unit = in_one_unit(&mut taken, &preferences::units(context, None)?);
    Ok(History { name, vehicle, identification, unit, taken, unread })
}

/// All runs with their vehicles; what is closed is not replayed for that.
fn looked(context: &Context, runs: &Runs) -> Result<Looked, Exit> {
    let catalogue = Catalogue::read(runs).map_err(|error| context.journal_error(&error))?;
    let summaries = catalogue.summaries(runs);
    let known: BTreeSet<&RunId> = summaries.iter().map(|(id, _)| *id).collect();
    let lost = catalogue.closed.keys().filter(|id| !known.contains(id));
    let mut unread: Vec<Unread> = lost
        .map(|id| Unread {
            run: id.as_str().to_owned(),
            why: "what it is about cannot be made out".to_owned(),
        })
        .collect();
    unread.extend(
        catalogue
            .broken
            .iter()
            .map(|broken| Unread { run: broken.name.clone(), why: broken.error.to_string() }),
    );
    let mut of: Vec<(RunId, Vehicle)> = Vec::new();
    of.extend(
        summaries
            .iter()
            .map(|(id, summary)| ((*id).clone(), (summary.identification.clone(), summary.vehicle.clone()))),
    );
    for (id, run) in &catalogue.others {
        match run {
            Ok(run) => of.push((id.clone(), vehicle_of(run))),
            Err(error) => unread.push(Unread { run: id.as_str().to_owned(), why: error.to_string() }),
        }
    }
    Ok(Looked { of, unread })
}

/// The one vehicle that is meant; where there are several, they are named.
fn meant(context: &Context, command: &Command, of: &[(RunId, Vehicle)]) -> Result<Vehicle, Exit> {
    let wanted = command.vehicle.as_deref().map(|words| words.trim().to_lowercase());
    let fits = |(identification, vehicle): &&Vehicle| {
        let Some(wanted) = &wanted else { return true };
        [identification, vehicle].into_iter().flatten().any(|text| text.to_lowercase().contains(wanted))
    };
    let all: BTreeMap<Option<String>, Option<String>> =
        of.iter().map(|(_, vehicle)| vehicle).filter(fits).cloned().collect();
    let names = || {
        let named = all.iter().map(|(identification, vehicle)| match identification {
            Some(identification) => format!("{} ({identification})", vehicle.as_deref().unwrap_or("unnamed")),
            None => "runs without a vehicle sheet".to_owned(),
        });
        named.collect::<Vec<_>>().join("; ")
    };
    match all.len() {
        1 => Ok(all.into_iter().next().unwrap_or_default()),
        0 if wanted.is_some() => Err(context.found(&format!(
            "no run is of a vehicle like `{}`; `bayhand records` lists the vehicles",
            command.vehicle.as_deref().unwrap_or_default()
        ))),
        0 => Err(context.found(&"there is no run yet; `bayhand run FILE` begins one")),
        // With a name, those that have none are not meant.
        _ => {
            Err(context.found(&format!("there are several vehicles; name one with `--vehicle`: {}", names())))
        }
    }
}

/// The record of a run, each of its entries proved to have been allowed; or why there is none.
fn record_of(runs: &Runs, id: &RunId) -> Result<record::model::Record, String> {
    let run = StoredRun::read(runs, id).map_err(|error| error.to_string())?;
    let lines = run.lines();
    let kept = Kept { book: &run.book, events: &run.events, lines: &lines, pinned: &run.pinned };
    record::proved(&kept).map_err(|findings| findings.first().map(ToString::to_string).unwrap_or_default())
}

/// Gives every number in the unit that is preferred, else in that of the last; what is of another kind keeps its own.
fn in_one_unit(taken: &mut [Taken], preferred: &Preferred) -> Option<String> {
    let read = |taken: &Taken| {
        let amount = taken.amount.as_ref()?;
        Quantity::from_exact_text(format!("{} {}", amount.number, amount.unit).trim_end())
    };
    let last = taken.iter().rev().find_map(read)?.unit;
    let unit: Unit = preferred.beside(&last).cloned().unwrap_or(last);
    for one in taken.iter_mut() {
        let other = read(one).filter(|read| read.unit != unit).and_then(|read| read.in_unit(&unit).ok());
        one.in_unit = other.as_ref().map(amount);
    }
    Some(unit.symbol().to_owned())
}

/// What it is, as the last run that has it says.
fn what(taken: &[Taken]) -> Option<&str> {
    taken.last().map(|taken| taken.what.as_str())
}

fn unknown(
    context: &Context,
    wanted: &str,
    by_name: &BTreeMap<String, Vec<Taken>>,
    unread: &[Unread],
) -> Exit {
    for unread in unread {
        context.complain(&format!("run {} cannot be read, and may hold it: {}", unread.run, unread.why));
    }
    let whats = by_name.values().filter_map(|taken| what(taken));
    let meant = nearest(wanted, by_name.keys().map(String::as_str).chain(whats));
    let meant = meant.map(|meant| format!("; did you mean `{meant}`?"));
    let meant = meant.unwrap_or_else(|| ".".to_owned());
    let sort = |kind: &str, many: &str| {
        let those = by_name.iter().filter(|(_, taken)| taken.last().is_some_and(|taken| taken.kind == kind));
        let names = those.map(|(name, taken)| match what(taken) {
            Some(what) if what != name => format!("{name} ({what})"),
            _ => name.clone(),
        });
        let names: Vec<String> = names.collect();
        (!names.is_empty()).then(|| format!("{many}: {}", names.join(", ")))
    };
    let sorts =
        [sort("reading", "Readings"), sort("computed value", "Computed values"), sort("count", "Counts")];
    let there: Vec<String> = sorts.into_iter().flatten().collect();
    let there = if there.is_empty() {
        "Nothing was read, worked out or counted yet".to_owned()
    } else {
        there.join(". ")
    };
    context.found(&format!("nothing of that vehicle is called `{wanted}`{meant} {there}."))
}
