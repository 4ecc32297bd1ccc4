//! `bayhand vehicle keep`: what was typed in a run is kept in the vehicle's sheet.

use std::fmt::Write;
use std::path::Path;

use super::context::Context;
use super::{Exit, inputs};
use crate::formula::World;
use crate::journal::RunId;
use crate::run::{Given, View};
use crate::session::StoredRun;
use crate::source::SourceText;
use crate::vehicle::{PutIn, Sheet, amended};

/// What becomes of the values that were typed.
#[derive(Default)]
struct Sorted {
    put_in: Vec<PutIn>,
    same: usize,
    /// Those that the sheet gives otherwise, in words.
    other: Vec<String>,
    usual: usize,
}

pub(super) fn keep(context: &Context, file: &Path, run: &str) -> Result<Exit, Exit> {
    let runs = context.runs()?;
    let id = RunId::parse(run).map_err(|error| context.journal_error(&error))?;
    let run = StoredRun::read(&runs, &id).map_err(|error| context.not_opened(&error))?;
    let (text, sheet) = sheet_at(context, file)?;
    let of_run = run.book.sheet.as_ref().map(Sheet::identification);
    if let Some(other) = of_run.filter(|own| *own != sheet.identification()) {
        let words =
            format!("run {id} is of the vehicle {other}, and the sheet of {}", sheet.identification());
        return Err(context.found(&words));
    }
    let now = context.system.now();
    let sorted = sort(run.view(&now), &run, &sheet);
    if !sorted.put_in.is_empty() {
        let amended = amended(&text, &sorted.put_in, &format!("Typed in run {id}."));
        let disk = context.system.disk();
        disk.replace(file, amended.text().as_bytes()).map_err(|error| context.trouble(&error))?;
    }
    let told = context.write(&told(file, &sorted));
    Ok(if sorted.other.is_empty() { told } else { Exit::Found })
}

fn sheet_at(context: &Context, file: &Path) -> Result<(SourceText, Sheet), Exit> {
    let input = inputs::sheet(context, file)?;
    if input.value.is_none() {
        context.diagnose(&input.diagnostics, &input.text);
    }
    let sheet = input.value.ok_or(Exit::Found)?;
    Ok((input.text, sheet))
}

fn sort(view: View<'_>, run: &StoredRun, sheet: &Sheet) -> Sorted {
    let mut sorted = Sorted::default();
    for (name, given) in &view.state.vehicle {
        if given.source.starts_with("common practice: ") {
            sorted.usual += 1;
            continue;
        }
        let value = with_unit(view, name, given);
        match sheet.value(name.as_str()) {
            None => sorted.put_in.push(PutIn { name: name.to_string(), value, source: source(run, given) }),
            Some(known) if known.text.trim() == value.trim() => sorted.same += 1,
            Some(known) => sorted.other.push(format!(
                "{name}: the sheet says {} ({}), the run {value} ({})",
                known.text, known.source, given.source
            )),
        }
    }
    sorted
}

/// A bare number stands in the sheet with its unit.
fn with_unit(view: View<'_>, name: &crate::procedure::Name, given: &Given) -> String {
    let typed = given.value.as_typed();
    let is_bare = typed.chars().all(|char| !char.is_alphabetic());
    let known = view.known().value_of(name.as_str()).filter(|_| is_bare);
    known.map_or(typed, |value| value.to_string())
}

fn source(run: &StoredRun, given: &Given) -> String {
    let (entry, day) = (given.stamp.seq, given.stamp.at.strftime("%Y-%m-%d"));
    format!("{} (typed in run {}, entry {entry}, {day})", given.source, run.id.as_str())
}

fn told(file: &Path, sorted: &Sorted) -> String {
    let mut said =
        format!("{}: {} put in, {} there already.\n", file.display(), sorted.put_in.len(), sorted.same);
    for one in &sorted.put_in {
        let _ = writeln!(said, "  {}: {} ({})", one.name, one.value, one.source);
    }
    if sorted.usual > 0 {
        let _ =
            writeln!(said, "Taken as common practice, and so not kept as this vehicle's: {}.", sorted.usual);
    }
    for other in &sorted.other {
        let _ = writeln!(said, "Not changed, {other}. Look which is right, and change the sheet by hand.");
    }
    said
}
