//! A result of a run with where it is from: what is handed on, and what is summed.

use jiff::ZonedDateTime;

use crate::formula::{Value, World};
use crate::procedure::Name;
use crate::run::{OccurrenceId, View};
use crate::session::StoredRun;

/// A result of a run, and where it is from.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// What it came to.
    pub value: Value,
    /// In which pass, where it is repeated.
    pub pass: Option<String>,
    /// The entry.
    pub entry: u64,
    /// When that was made.
    pub at: ZonedDateTime,
}

/// A result at the end of its run so far: of what is repeated one for each pass that counts; none where it is not there.
pub fn figures(run: &StoredRun, name: &Name) -> Vec<Figure> {
    let Some((_, last)) = run.events.last() else { return Vec::new() };
    let view = run.view(&last.at);
    view.passes_with(name).into_iter().filter_map(|at| figure(view, name, at)).collect()
}

fn figure(view: View<'_>, name: &Name, at: OccurrenceId) -> Option<Figure> {
    let here = view.inside(at);
    let value = here.known().value_of(name.as_str()).or_else(|| words(here, name))?;
    let stamp = here.entry_of(name)?;
    let step = view.book.procedure.home(name);
    let pass = step.filter(|_| at != OccurrenceId::RUN).and_then(|step| here.pass_words(step));
    Some(Figure { value, pass, entry: stamp.seq, at: stamp.at })
}

/// A reading that no formula can use: a list, a date, a file.
fn words(here: View<'_>, name: &Name) -> Option<Value> {
    let taken = here.latest(name).filter(|_| here.is_taken(name) && !here.is_blind(name))?;
    Some(Value::Text(taken.value.as_typed()))
}
