//! Computed values at each occurrence of their step.

use super::readings::accepted;
use super::wording::origin;
use super::work::Work;
use crate::formula::Trace;
use crate::procedure::{self, Name};
use crate::quantity::Quantity;
use crate::record::amounts::amount;
use crate::record::judging::{fails, judged};
use crate::record::model::{Amount, Outcome, Value, ValueResult};
use crate::run::{Judged, StepAt};

pub(in crate::record) fn values(work: &Work<'_>, outcome: &mut Outcome) -> Vec<Value> {
    let procedure = &work.book().procedure;
    let mut values: Vec<_> = procedure.values().iter().collect();
    values.sort_by_key(|(name, _)| procedure.home(name));
    let mut told = Vec::new();
    for (name, value) in values {
        told.extend(work.of_name(name).iter().map(|seen| one(work, (name, value), seen, outcome)));
    }
    told
}

fn one(
    work: &Work<'_>,
    (name, value): (&Name, &procedure::Value),
    seen: &StepAt<'_>,
    outcome: &mut Outcome,
) -> Value {
    let procedure = &work.book().procedure;
    Value {
        name: name.to_string(),
        what: value.what.clone(),
        step: seen.step.number.clone(),
        place: work.place(seen),
        from: procedure.place(name).and_then(|place| origin(procedure, place.source)),
        formula: value.formula.text().to_owned(),
        source: value.source.clone(),
        result: result(work, name, seen, outcome),
    }
}

fn result(work: &Work<'_>, name: &Name, seen: &StepAt<'_>, outcome: &mut Outcome) -> Option<ValueResult> {
    let here = work.inside(seen);
    let now = here.value_at(seen.step, name)?;
    outcome.values_failed += usize::from(fails(&now.judgement));
    let trace = here.trace(name);
    let trace = trace.as_ref();
    Some(ValueResult {
        result: now.quantity.as_ref().map(|quantity| Amount {
            shown: now.shown(Quantity::DIGITS).unwrap_or_default(),
            ..amount(quantity)
        }),
        trace: way(trace, &now).unwrap_or_default(),
        assumptions: trace
            .map(|trace| trace.notes().iter().chain(trace.assumptions()).cloned().collect())
            .unwrap_or_default(),
        judged: judged(work.book(), name, &now),
        deviation: accepted(work, seen, name, |_| true),
    })
}

/// The way on one line, by the formula's own text; the result with digits enough to tell it from its limits.
fn way(trace: Option<&Trace>, now: &Judged) -> Option<String> {
    const DIGITS: i32 = 3;
    Some(trace?.show_as(&now.shown(DIGITS)?))
}
