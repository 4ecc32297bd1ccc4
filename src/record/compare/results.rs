//! Readings, computed values and fasteners, matched by name and item.

use super::change::{Sort, change};
use super::model::{Change, End, Only};
use crate::record::items::item;
use crate::record::model::{
    Answer, FastenerGroup, FastenerPlace, Instrument, Place, Reading, Record, TypedAmount, Value,
};
use crate::record::report::address;

/// What tells one thing from another in both records: its name, and its item where it is done for several.
type Key = (String, Option<String>);

/// A thing as it was left, by its key.
struct Left {
    key: Key,
    what: String,
    end: End,
}

pub(super) fn readings(before: &Record, after: &Record, only: &mut Only) -> Vec<Change> {
    matched(&readings_left(before), &readings_left(after), Sort::Measured, only)
}

pub(super) fn values(before: &Record, after: &Record, only: &mut Only) -> Vec<Change> {
    matched(&values_left(before), &values_left(after), Sort::Other, only)
}

pub(super) fn fasteners(before: &Record, after: &Record, only: &mut Only) -> Vec<Change> {
    matched(&fasteners_left(before), &fasteners_left(after), Sort::Measured, only)
}

fn matched(before: &[Left], after: &[Left], sort: Sort, only: &mut Only) -> Vec<Change> {
    let name = |left: &Left| {
        let of = left.key.1.as_ref().map(|of| format!(" ({of})")).unwrap_or_default();
        format!("{} {}{of} [{}]: {}", left.end.step, left.what, left.key.0, left.end.shown)
    };
    let lacks = |left: &Left, others: &[Left]| others.iter().all(|other| other.key != left.key);
    only.before.extend(before.iter().filter(|left| lacks(left, after)).map(name));
    only.after.extend(after.iter().filter(|left| lacks(left, before)).map(name));
    let pairs = after.iter().filter_map(|after| {
        let before = before.iter().find(|before| before.key == after.key)?;
        let (name, of) = &after.key;
        Some(change((name, &after.what, of.as_deref()), before.end.clone(), after.end.clone(), sort))
    });
    pairs.collect()
}

/// Of what came more than once for the same item, the last answers, in the place of the first.
fn last_each(all: impl Iterator<Item = Left>) -> Vec<Left> {
    let mut each: Vec<Left> = Vec::new();
    for left in all {
        match each.iter_mut().find(|one| one.key == left.key) {
            Some(one) => *one = left,
            None => each.push(left),
        }
    }
    each
}

fn readings_left(record: &Record) -> Vec<Left> {
    let counting = record.readings.iter().filter(|reading| reading.place.aside.is_none());
    last_each(counting.filter_map(reading_left))
}

fn reading_left(reading: &Reading) -> Option<Left> {
    let attempt = reading.attempts.last()?;
    let end = End {
        shown: crate::record::said(&attempt.answer),
        amount: match &attempt.answer {
            Answer::Quantity(typed) => Some(asked(typed)),
            _ => None,
        },
        verdict: attempt.judged.as_ref().map(|judged| judged.verdict.clone()),
        identity: attempt.instrument.as_ref().map(|used| used.identity.clone()),
        entry: Some(attempt.when.entry),
        ..placed(&reading.step, &reading.place, reading.instrument.as_ref())
    };
    Some(Left { key: key(&reading.name, &reading.place), what: reading.what.clone(), end })
}

fn values_left(record: &Record) -> Vec<Left> {
    let counting = record.values.iter().filter(|value| value.place.aside.is_none());
    last_each(counting.filter_map(value_left))
}

fn value_left(value: &Value) -> Option<Left> {
    let result = value.result.as_ref()?;
    let end = End {
        shown: result.result.as_ref().map_or_else(|| "no result".to_owned(), |amount| amount.shown.clone()),
        amount: result.result.clone(),
        verdict: Some(result.judged.verdict.clone()),
        ..placed(&value.step, &value.place, None)
    };
    Some(Left { key: key(&value.name, &value.place), what: value.what.clone(), end })
}

fn fasteners_left(record: &Record) -> Vec<Left> {
    let counting = record.fasteners.iter().filter(|group| group.place.aside.is_none());
    last_each(counting.flat_map(|group| {
        group.order.iter().filter_map(|position| fastener_left(group, position)).collect::<Vec<_>>()
    }))
}

/// A fastener as its last stage left it: what was reached, or that it was done.
fn fastener_left(group: &FastenerGroup, position: &str) -> Option<Left> {
    let at = |places: &'_ [FastenerPlace]| places.iter().position(|place| place.position == position);
    let stages = group.stages.iter().rev();
    let mut worked = stages.filter_map(|stage| Some((stage, &stage.places[at(&stage.places)?])));
    let (stage, place) = worked.find(|(_, place)| !place.acts.is_empty())?;
    let act = place.acts.iter().rev().find(|act| act.reached.is_some());
    let reached = act.and_then(|act| act.reached.as_ref());
    let end = End {
        shown: reached.map_or_else(|| place.state.clone(), |reached| reached.typed.shown.clone()),
        amount: reached.map(asked),
        verdict: act
            .and_then(|act| Some(act.judged.as_ref()?.verdict.clone()))
            .or_else(|| Some(place.state.clone())),
        identity: act.and_then(|act| Some(act.instrument.as_ref()?.identity.clone())),
        entry: act.or(place.acts.last()).map(|act| act.when.entry),
        ..placed(&group.step, &group.place, group.instrument.as_ref().filter(|_| reached.is_some()))
    };
    let (name, of) = key(&group.name, &group.place);
    let of = of.into_iter().chain([position.to_owned()]).collect::<Vec<_>>().join(", ");
    Some(Left { key: (name, Some(of)), what: format!("{}, {}", group.what, stage.what), end })
}

fn placed(step: &str, place: &Place, instrument: Option<&Instrument>) -> End {
    End {
        step: address(step, &Place { pass: None, ..place.clone() }),
        pass: place.pass.clone(),
        instrument: instrument.map(|instrument| instrument.what.clone()),
        accuracy: instrument.and_then(|instrument| instrument.accuracy.clone()),
        ..End::default()
    }
}

/// In the unit that was asked for.
fn asked(typed: &TypedAmount) -> crate::record::model::Amount {
    typed.asked.as_ref().map_or_else(|| typed.typed.clone(), |asked| asked.amount.clone())
}

fn key(name: &str, place: &Place) -> Key {
    (name.to_owned(), place.pass.as_deref().and_then(item))
}
