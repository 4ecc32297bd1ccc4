//! Names that the front matter itself mentions, such as instruments and releasing roles; readings made of what was
//! written and proved.

use super::Names;
use super::flow::Proved;
use crate::procedure::declarable::Spoken;
use crate::procedure::rules::{name_table, name_unknown};
use crate::procedure::written::{WrittenCeiling, WrittenKind, WrittenReading};
use crate::procedure::{
    Ceiling, Criterion, Declarations, Name, Occasion, Reading, ReadingKind, SecondReading,
};
use crate::source::{Diagnostic, Spanned};

/// Says which of those names are unknown, or name something else than can stand there.
pub(super) fn problems(declarations: &Declarations, names: &Names) -> Vec<Diagnostic> {
    declarations.spoken().into_iter().filter_map(|spoken| problem(names, spoken)).collect()
}

fn problem(names: &Names, spoken: Spoken<'_>) -> Option<Diagnostic> {
    let Spoken { name, tables, whose, .. } = spoken;
    let table = *tables.first()?;
    let wanted = Name(name.value.clone());
    match names.get(&wanted) {
        None => Some(name_unknown::unknown(names, &wanted, name.span, &[table])),
        Some(declared) if tables.contains(&declared.table) => None,
        Some(declared) => Some(name_table::wrong(name, declared, table, whose)),
    }
}

fn name(written: &Spanned<String>) -> Name {
    Name(written.value.clone())
}

/// A reading, its names followed and its criteria proved.
pub(in crate::procedure) fn checked_reading(
    name: &Name,
    written: &WrittenReading,
    proved: &Proved<'_>,
) -> Option<Reading> {
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
