//! What an earlier procedure of a job leaves, the next one finds: results, each with the run and the entry it is from.

use crate::formula::World;
use crate::procedure::{CheckedProcedure, Name};
use crate::session::StoredRun;
use crate::source::SourceText;
use crate::vehicle::{PutIn, amended};

/// A vehicle value that an earlier procedure gives.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Handed {
    /// The value, as this procedure calls it.
    pub name: Name,
    /// As it would be typed.
    pub text: String,
    /// Which result of which run, which entry, when.
    pub source: String,
}

/// What the closed runs of a job hand on to a procedure.
pub fn handed_on(procedure: &CheckedProcedure, runs: &[StoredRun]) -> Vec<Handed> {
    let found = procedure.vehicle().iter().filter_map(|(name, value)| {
        let handed = value.handed_on.as_ref()?;
        let own = runs
            .iter()
            .filter(|run| run.book.procedure.id() == handed.procedure && run.state.closed.is_some());
        let run = own.max_by_key(|run| run.state.closed.as_ref().map(|stamp| stamp.at.timestamp()))?;
        let (text, source) = result(run, &Name(handed.name.clone()))?;
        Some(Handed { name: name.clone(), text, source })
    });
    found.collect()
}

/// A result at the end of its run, and where it is from.
fn result(run: &StoredRun, name: &Name) -> Option<(String, String)> {
    let (_, last) = run.events.last()?;
    let view = run.view(&last.at);
    let taken = view.latest(name);
    let value = view.known().value_of(name.as_str())?;
    let text = match value {
        crate::formula::Value::Text(text) | crate::formula::Value::Instead(text) => text,
        other => other.to_string(),
    };
    let (entry, at) = taken.map_or((last.seq, &last.at), |taken| (taken.stamp.seq, &taken.stamp.at));
    let when = at.strftime("%Y-%m-%d %H:%M");
    let source = format!("`{}` of run {}, entry {entry}, {when}", name.as_str(), run.id.as_str());
    Some((text, source))
}

/// The text of a sheet with what is handed on in the place of what it says itself: the run is begun with it, and keeps it.
pub fn sheet_with(sheet: &SourceText, handed: &[Handed]) -> SourceText {
    let values = handed.iter().map(|one| PutIn {
        name: one.name.0.clone(),
        value: one.text.clone(),
        source: one.source.clone(),
    });
    amended(sheet, &values.collect::<Vec<_>>(), "Handed on in this job.")
}
