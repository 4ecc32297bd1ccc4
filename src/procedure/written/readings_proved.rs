//! `[readings]`: what a formula may take one for, its limits proved, and the reading that comes of it.

use super::handling::WrittenCeiling;
use super::reading::{WrittenKind, WrittenReading};
use crate::formula::Type;
use crate::procedure::check::{Owner, Proved, Prover, Valued};
use crate::procedure::{Ceiling, Criterion, Name, Occasion, Reading, ReadingKind, SecondReading};
use crate::quantity::Unit;
use crate::source::Spanned;

/// What a formula may take it for.
pub(super) fn valued(reading: &WrittenReading) -> Option<Valued> {
    let instead = reading.instead.iter().map(|outcome| outcome.words.clone()).collect();
    Some(Valued { kind: kind_of(reading)?, choices: choices(reading), instead })
}

fn kind_of(reading: &WrittenReading) -> Option<Type> {
    match &reading.kind {
        WrittenKind::Quantity { unit, .. } => Some(Type::of(&unit.value)),
        WrittenKind::Count(_) => Some(Type::NUMBER),
        WrittenKind::Choice { .. } | WrittenKind::Text => Some(Type::Text),
        WrittenKind::Date { .. } | WrittenKind::List(_) | WrittenKind::File => None,
    }
}

fn choices(reading: &WrittenReading) -> Vec<String> {
    match &reading.kind {
        // An outcome is one more choice.
        WrittenKind::Choice { choices, .. } => {
            let instead = reading.instead.iter().map(|outcome| &outcome.words);
            choices.iter().chain(instead).cloned().collect()
        }
        _ => Vec::new(),
    }
}

/// Proves its limits.
pub(super) fn prove(prover: &mut Prover<'_>, name: &Spanned<Name>, reading: &WrittenReading) {
    let one = Unit::one();
    let (unit, declared, criterion) = match &reading.kind {
        WrittenKind::Quantity { unit, criterion, .. } => (&unit.value, unit.span, criterion),
        WrittenKind::Count(criterion) => (&one, name.span, criterion),
        _ => return,
    };
    let owner = Owner { name: &name.value, unit, declared };
    prover.criterion(&owner, criterion);
    prove_ceiling(prover, &owner, reading.handling.ceiling.as_ref());
}

/// What must never be passed is of the kind of the reading, as a limit is.
fn prove_ceiling(prover: &mut Prover<'_>, owner: &Owner<'_>, written: Option<&WrittenCeiling>) {
    let Some(written) = written else { return };
    let ends = [("never_below", &written.never_below), ("never_above", &written.never_above)];
    for (key, wording) in ends {
        if let Some(typed) = wording.as_ref().and_then(|wording| prover.limit(owner, wording)) {
            prover.formulas.flow.insert((owner.name.clone(), key.to_owned()), typed);
        }
    }
}

/// A reading, its names followed and its criteria proved.
pub(super) fn checked(name: &Name, written: &WrittenReading, proved: &Proved<'_>) -> Option<Reading> {
    let reading = reading(written, proved.formulas.criteria.get(name))?;
    let ceiling = written.handling.ceiling.as_ref().map(|written| ceiling(written, name, proved));
    Some(Reading { ceiling, ..reading })
}

fn reading(written: &WrittenReading, criterion: Option<&Criterion>) -> Option<Reading> {
    let kind = match &written.kind {
        WrittenKind::Quantity { unit, plausible, rule, .. } => ReadingKind::Quantity {
            unit: unit.value.clone(),
            plausible: plausible.as_ref().map(|(low, high)| (low.value.clone(), high.value.clone())),
            criterion: criterion?.clone(),
            rule: rule.value,
        },
        WrittenKind::Count(_) => ReadingKind::Count { criterion: criterion?.clone() },
        WrittenKind::Choice { choices, accept } => {
            ReadingKind::Choice { choices: choices.clone(), accept: accept.clone() }
        }
        WrittenKind::Text => ReadingKind::Text,
        WrittenKind::List(at_least) => ReadingKind::List { at_least: *at_least },
        WrittenKind::File => ReadingKind::File,
        WrittenKind::Date { earliest, latest } => ReadingKind::Date { earliest: *earliest, latest: *latest },
    };
    Some(Reading {
        what: written.what.clone(),
        why: written.why.clone(),
        kind,
        instrument: written.instrument.as_ref().map(name),
        stopwatch: written.stopwatch,
        fails: written.fails.clone(),
        sides: written.sides.clone(),
        source: written.source.clone(),
        second: written
            .second
            .as_ref()
            .map(|second| SecondReading { by: name(&second.by), agree: second.agree.clone() }),
        occasion: occasion(written),
        ceiling: None,
        instead: written.instead.clone(),
    })
}

fn occasion(written: &WrittenReading) -> Occasion {
    match (&written.handling.as_left, written.handling.as_found) {
        (Some(found), _) => Occasion::AsLeft(name(found)),
        (None, Some(_)) => Occasion::AsFound,
        (None, None) => Occasion::Plain,
    }
}

fn ceiling(written: &WrittenCeiling, owner: &Name, proved: &Proved<'_>) -> Ceiling {
    let end = |key: &str| proved.typed(owner, key);
    Ceiling { never_below: end("never_below"), never_above: end("never_above"), opens: name(&written.opens) }
}

fn name(written: &Spanned<String>) -> Name {
    Name::from(&written.value)
}
