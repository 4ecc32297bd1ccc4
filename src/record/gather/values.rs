//! Computed values: a result for each state of the readings that it rests on.

use std::collections::BTreeMap;

use super::readings::behind;
use super::wording::origin;
use crate::formula::World;
use crate::procedure::Name;
use crate::record::amounts::amount;
use crate::record::judging::judged;
use crate::record::model::{Value, ValueResult};
use crate::record::turn::{Turn, number_of, step_of};
use crate::run::Book;

#[derive(Default)]
pub(in crate::record) struct Values(BTreeMap<Name, Results>);

#[derive(Default)]
struct Results {
    results: Vec<ValueResult>,
    rests_on: Option<Vec<usize>>,
}

impl Values {
    pub(in crate::record) fn see(&mut self, turn: Turn<'_>) {
        for name in turn.book.procedure.values().names().filter(|name| is_ready(turn, name)) {
            let results = self.0.entry(name.clone()).or_default();
            let rests_on = Some(behind(turn, name));
            if results.rests_on != rests_on {
                results.rests_on = rests_on;
                results.results.extend(result(turn, name));
            }
        }
    }

    pub(in crate::record) fn finish(mut self, book: &Book) -> Vec<Value> {
        let mut values: Vec<_> = book.procedure.values().iter().collect();
        values.sort_by_key(|(name, _)| step_of(book, name).map(|step| step.id));
        values
            .into_iter()
            .map(|(name, value)| Value {
                name: name.to_string(),
                what: value.what.clone(),
                step: number_of(book, name),
                from: book.procedure.place(name).and_then(|place| origin(&book.procedure, place.source)),
                formula: value.formula.text().to_owned(),
                source: value.source.clone(),
                results: self.0.remove(name).unwrap_or_default().results,
            })
            .collect()
    }
}

/// Whether the step applies and all that the value rests on is there, so that what cannot be computed now never can.
fn is_ready(turn: Turn<'_>, name: &Name) -> bool {
    let view = turn.view();
    let known = view.known();
    let mut vehicle = turn.book.procedure.vehicle().names();
    step_of(turn.book, name).is_some_and(|step| view.applies(step).is_yes())
        && turn.book.rests_on(name).iter().all(|reading| view.is_taken(reading))
        && vehicle.all(|name| known.value_of(name.as_str()).is_some())
}

fn result(turn: Turn<'_>, name: &Name) -> Option<ValueResult> {
    let value = turn.book.procedure.value(name)?;
    let now = turn.book.judge(turn.after, name)?;
    let trace = now.trace.as_ref();
    Some(ValueResult {
        result: now.quantity.as_ref().map(amount),
        trace: trace.map(|trace| trace.show_in(&value.unit)).unwrap_or_default(),
        assumptions: trace.map(|trace| trace.assumptions().to_vec()).unwrap_or_default(),
        judged: judged(turn.book, name, &now, turn.moment()),
    })
}
