//! Whether what a job says of its procedures is so: the results in its balances are there, and can be summed.

use super::codes::{BALANCE_NUMBER, BALANCE_RESULT, BALANCE_UNIT};
use super::model::{Balance, Figures, Job, Source};
use crate::procedure::{CheckedProcedure, Name, ReadingKind};
use crate::quantity::Unit;
use crate::source::{Diagnostic, suggest};

/// What is wrong with the balances of a job beside its procedures; of one that could not be read nothing is said.
pub fn check(job: &Job, procedures: &[CheckedProcedure]) -> Vec<Diagnostic> {
    let of = |source: &Source| procedures.iter().find(|one| one.id() == source.of.procedure);
    let one = |balance: &Balance, source: &Source| wrong(&balance.figures, source, of(source)?);
    let all = job
        .balances
        .iter()
        .flat_map(|balance| balance.sources().filter_map(move |source| one(balance, source)));
    all.collect()
}

fn wrong(figures: &Figures, source: &Source, procedure: &CheckedProcedure) -> Option<Diagnostic> {
    let name = Name::from(&source.of.result);
    let found = |code, words: String, label: &str| {
        Diagnostic::error(code, format!("`{}`: {words}", source.of)).at(source.span, label)
    };
    let measured = measured(procedure, &name);
    if measured == Measured::NotThere {
        let near = suggest::nearest(name.as_str(), results(procedure));
        let help = near.map_or_else(
            || "name a reading, a computed value or a vehicle value of that procedure".to_owned(),
            |near| format!("did you mean `{near} in {}`?", source.of.procedure),
        );
        let words = "that procedure has no such result".to_owned();
        return Some(found(&BALANCE_RESULT, words, "not there").help(help));
    }
    let Figures::Sum { unit: sum, .. } = figures else { return None };
    match measured {
        Measured::In(unit) if unit.is_of_the_kind_of(sum) => None,
        Measured::In(unit) => {
            let words = format!("it is in `{unit}`, and the sum in `{sum}`");
            Some(found(&BALANCE_UNIT, words, "another kind").help("sum what measures the same thing"))
        }
        _ => {
            let found = found(&BALANCE_NUMBER, "it is no number".to_owned(), "cannot be summed");
            Some(found.help("put it under `lists` of a balance of its own"))
        }
    }
}

/// The names of all results of a procedure.
fn results(procedure: &CheckedProcedure) -> impl Iterator<Item = &str> {
    let names = procedure.readings().names().chain(procedure.values().names());
    names.chain(procedure.vehicle().names()).map(Name::as_str)
}

/// How a result is measured.
#[derive(PartialEq)]
enum Measured {
    /// There is no such result.
    NotThere,
    /// It is no number.
    InWords,
    In(Unit),
}

fn measured(procedure: &CheckedProcedure, name: &Name) -> Measured {
    if let Some(reading) = procedure.reading(name) {
        return match &reading.kind {
            ReadingKind::Quantity { unit, .. } => Measured::In(unit.clone()),
            ReadingKind::Count { .. } => Measured::In(Unit::one()),
            _ => Measured::InWords,
        };
    }
    if let Some(value) = procedure.value(name) {
        return Measured::In(value.unit.clone());
    }
    let unit = procedure.vehicle_value(name).map(|value| value.unit.clone());
    unit.map_or(Measured::NotThere, |unit| unit.map_or(Measured::InWords, Measured::In))
}
