//! Steps that became something else, and values of the vehicle that differ.

use super::change::{Sort, change};
use super::model::{Change, End};
use crate::record::model::{Answer, Record, Step, VehicleValue};

/// Steps by their numbers: only of one and the same text is a number the same step.
pub(super) fn steps(before: &Record, after: &Record) -> Vec<Change> {
    let (before, after) = (last_each(before), last_each(after));
    let pairs = after.into_iter().filter_map(|after| {
        let before = before.iter().find(|before| before.number == after.number)?;
        let change = change((&after.number, &after.section, None), end(before), end(after), Sort::Other);
        (before.state != after.state).then_some(change)
    });
    pairs.collect()
}

/// A step that was done several times, as it was the last time.
fn last_each(record: &Record) -> Vec<&Step> {
    let mut each: Vec<&Step> = Vec::new();
    for step in record.steps.iter().filter(|step| step.place.aside.is_none()) {
        match each.iter_mut().find(|one| one.number == step.number) {
            Some(one) => *one = step,
            None => each.push(step),
        }
    }
    each
}

fn end(step: &Step) -> End {
    let why = step.why.as_ref().map(|why| format!(" ({why})")).unwrap_or_default();
    End { step: step.number.clone(), shown: format!("{}{why}", step.state), ..End::default() }
}

pub(super) fn vehicle_values(before: &Record, after: &Record) -> Vec<Change> {
    let pairs = after.vehicle.values.iter().filter_map(|after| {
        let before = before.vehicle.values.iter().find(|before| before.name == after.name)?;
        let change = change((&after.name, &after.what, None), given(before), given(after), Sort::Other);
        (!change.is_same).then_some(change)
    });
    pairs.collect()
}

fn given(value: &VehicleValue) -> End {
    let amount = match &value.value {
        Answer::Quantity(typed) => Some(typed.typed.clone()),
        _ => None,
    };
    End {
        shown: crate::record::said(&value.value),
        amount,
        entry: value.entered.as_ref().map(|moment| moment.entry),
        ..End::default()
    }
}
