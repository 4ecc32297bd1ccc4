//! What an earlier procedure of a job leaves, the next one finds: results, each with the run and the entry it is from.

use super::figure::figures;
use crate::formula::Value;
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
        let (text, source) = result(run, &Name::from(&handed.result))?;
        Some(Handed { name: name.clone(), text, source })
    });
    found.collect()
}

/// A result as it would be typed, and where it is from.
fn result(run: &StoredRun, name: &Name) -> Option<(String, String)> {
    let figure = figures(run, name).pop()?;
    let text = match figure.value {
        Value::Text(text) | Value::Instead(text) => text,
        other => other.to_string(),
    };
    let (run, entry, when) = (run.id.as_str(), figure.entry, figure.at.strftime("%Y-%m-%d %H:%M"));
    Some((text, format!("`{}`{OF_RUN}{run}, entry {entry}, {when}", name.as_str())))
}

const OF_RUN: &str = " of run ";

/// Whether the source of a vehicle value says that it was handed on.
pub(super) fn is_handed(source: &str) -> bool {
    source.strip_prefix('`').is_some_and(|rest| rest.contains(&format!("`{OF_RUN}")))
}

/// The text of a sheet with what is handed on in the place of what it says itself: the run is begun with it, and keeps it.
pub fn sheet_with(sheet: &SourceText, handed: &[Handed]) -> SourceText {
    let values = handed.iter().map(|one| PutIn {
        name: one.name.to_string(),
        value: one.text.clone(),
        source: one.source.clone(),
    });
    amended(sheet, &values.collect::<Vec<_>>(), "Handed on in this job.")
}
