//! Names that the front matter itself mentions: instruments, releasing roles, readings of a hold point.

use super::Names;
use crate::procedure::Criterion;
use crate::procedure::check::formulas::Formulas;
use crate::procedure::rules::{name_table, name_unknown};
use crate::procedure::written::{Declarations, Table};
use crate::procedure::written::{
    WrittenCeiling, WrittenGround, WrittenHold, WrittenKind, WrittenPasses, WrittenReading,
};
use crate::procedure::{
    Ceiling, Check, Hold, Name, Named, Occasion, Reading, ReadingKind, Role, SecondReading, Value, Witness,
};
use crate::source::{Diagnostic, Spanned};

/// Says which of those names are unknown, or name something else than can stand there.
pub(super) fn problems(declarations: &Declarations, names: &Names) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    let mut follow = |name: &Spanned<String>, table: Table, whose: &str| {
        found.extend(followed(names, name, table, whose));
    };
    for entry in &declarations.readings {
        let Some(reading) = &entry.thing else { continue };
        reading.instrument.iter().for_each(|name| follow(name, Table::Tools, "an instrument"));
        let second = reading.second.iter();
        second.for_each(|second| follow(&second.by, Table::Roles, "who reads a second time"));
        let handling = &reading.handling;
        handling.as_left.iter().for_each(|name| follow(name, Table::Readings, "what was found"));
        let opens = handling.ceiling.as_ref().map(|ceiling| &ceiling.opens);
        if let Some(opens) = opens {
            follow(opens, Table::Holds, "what is verified again");
        }
    }
    for role in declarations.roles.iter().filter_map(|entry| entry.thing.as_ref()) {
        role.checked_by.iter().for_each(|name| follow(name, Table::Roles, "who checks a role's work"));
    }
    for hold in declarations.holds.iter().filter_map(|entry| entry.thing.as_ref()) {
        follow(&hold.release, Table::Roles, "who releases a hold point");
        hold.second.iter().for_each(|name| follow(name, Table::Roles, "the second person of a hold point"));
        let readings = hold.readings.iter().filter(|name| !is_group(declarations, name));
        readings.for_each(|name| follow(name, Table::Readings, "what a hold point reads"));
        hold.ends.iter().for_each(|name| follow(name, Table::Holds, "what a hold point ends"));
    }
    for written in declarations.conditions.iter().filter_map(|entry| entry.thing.as_ref()) {
        match &written.ground {
            WrittenGround::If(_) => {}
            WrittenGround::Missed(name) => follow(name, Table::Waits, "what is missed"),
            WrittenGround::GaveUp(name) => follow(name, Table::Repeats, "what is given up"),
            WrittenGround::Failed(name) if can_fail(names, name) => {}
            WrittenGround::Failed(name) => follow(name, Table::Readings, "what fails"),
        }
    }
    for repeat in declarations.repeats.iter().filter_map(|entry| entry.thing.as_ref()) {
        if let WrittenPasses::EachOf(name) = &repeat.passes {
            follow(name, Table::Readings, "a list to repeat over");
        }
    }
    for group in declarations.fasteners.iter().filter_map(|entry| entry.thing.as_ref()) {
        group.instrument.iter().for_each(|name| follow(name, Table::Tools, "an instrument"));
    }
    for check in declarations.checks.iter().filter_map(|entry| entry.thing.as_ref()) {
        follow(&check.by, Table::Roles, "who checks");
    }
    for witness in declarations.witnesses.iter().filter_map(|entry| entry.thing.as_ref()) {
        follow(&witness.by, Table::Roles, "who is called to see it");
    }
    for watch in declarations.watches.iter().filter_map(|entry| entry.thing.as_ref()) {
        watch.readings.iter().for_each(|name| follow(name, Table::Readings, "what a limit in force judges"));
    }
    found
}

/// Whether it is a value or a group of fasteners, which can fail as a reading can.
fn can_fail(names: &Names, name: &Spanned<String>) -> bool {
    matches!(names.table(&Name(name.value.clone())), Some(Table::Values | Table::Fasteners))
}

fn followed(names: &Names, name: &Spanned<String>, table: Table, whose: &str) -> Option<Diagnostic> {
    let wanted = Name(name.value.clone());
    match names.get(&wanted) {
        None => Some(name_unknown::unknown(names, &wanted, name.span, &[table])),
        Some(declared) if declared.table != table => Some(name_table::wrong(name, declared, table, whose)),
        Some(_) => None,
    }
}

fn name(written: &Spanned<String>) -> Name {
    Name(written.value.clone())
}

/// The hold points, their names followed.
pub(super) fn holds(declarations: &Declarations) -> Named<Hold> {
    let holds = declarations.holds.iter();
    let hold = |written: &WrittenHold| hold(declarations, written);
    holds.filter_map(|entry| Some((entry.name.value.clone(), hold(entry.thing.as_ref()?)))).collect()
}

fn is_group(declarations: &Declarations, name: &Spanned<String>) -> bool {
    declarations.fasteners.iter().any(|entry| entry.name.value.0 == name.value)
}

fn hold(declarations: &Declarations, written: &WrittenHold) -> Hold {
    let (fasteners, readings): (Vec<_>, Vec<_>) =
        written.readings.iter().partition(|name| is_group(declarations, name));
    let names = |written: Vec<&Spanned<String>>| written.into_iter().map(name).collect();
    Hold {
        what: written.what.clone(),
        why: written.why.clone(),
        confirm: written.confirm.clone(),
        anew: written.anew.clone(),
        readings: names(readings),
        fasteners: names(fasteners),
        release: name(&written.release),
        second: written.second.as_ref().map(name),
        lapses: written.lapses.clone(),
        protection: written.protection.as_ref().map(|protection| protection.value.clone()),
        ends: written.ends.iter().map(name).collect(),
        isolates: written.isolates.as_ref().map(|energy| energy.value.clone()),
    }
}

/// The readings, their criteria proved.
pub(super) fn readings(declarations: &Declarations, formulas: &Formulas) -> Named<Reading> {
    let one = |entry: &crate::procedure::written::Entry<WrittenReading>| {
        let name = entry.name.value.clone();
        let written = entry.thing.as_ref()?;
        let reading = reading(written, formulas.criteria.get(&name))?;
        let ceiling = written.handling.ceiling.as_ref().map(|written| ceiling(written, &name, formulas));
        Some((name, Reading { ceiling, ..reading }))
    };
    declarations.readings.iter().filter_map(one).collect()
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

/// The roles, those that check them followed.
pub(super) fn roles(declarations: &Declarations) -> Named<Role> {
    let role = |entry: &crate::procedure::written::Entry<crate::procedure::written::WrittenRole>| {
        let written = entry.thing.as_ref()?;
        let checked_by = written.checked_by.as_ref().map(name);
        Some((entry.name.value.clone(), Role { what: written.what.clone(), checked_by }))
    };
    declarations.roles.iter().filter_map(role).collect()
}

fn occasion(written: &WrittenReading) -> Occasion {
    match (&written.handling.as_left, written.handling.as_found) {
        (Some(found), _) => Occasion::AsLeft(name(found)),
        (None, Some(_)) => Occasion::AsFound,
        (None, None) => Occasion::Plain,
    }
}

fn ceiling(written: &WrittenCeiling, owner: &Name, formulas: &Formulas) -> Ceiling {
    let end = |key: &str| formulas.flow.get(&(owner.clone(), key.to_owned())).cloned();
    Ceiling { never_below: end("never_below"), never_above: end("never_above"), opens: name(&written.opens) }
}

/// The computed values, their formulas proved.
pub(super) fn values(declarations: &Declarations, formulas: &Formulas) -> Named<Value> {
    let mut values = Named::default();
    for entry in &declarations.values {
        let name = &entry.name.value;
        let (Some(written), Some((formula, unit)), Some(criterion)) =
            (&entry.thing, formulas.computed.get(name), formulas.criteria.get(name))
        else {
            continue;
        };
        let value = Value {
            what: written.what.clone(),
            why: written.why.clone(),
            formula: formula.clone(),
            unit: unit.clone(),
            criterion: criterion.clone(),
            fails: written.fails.clone(),
            sides: written.sides.clone(),
            source: written.source.clone(),
        };
        values.add(name.clone(), value);
    }
    values
}

/// The checks, their roles followed.
pub(super) fn checks(declarations: &Declarations) -> Named<Check> {
    let check = |entry: &crate::procedure::written::Entry<crate::procedure::written::WrittenCheck>| {
        let written = entry.thing.as_ref()?;
        let check = Check { what: written.what.clone(), by: name(&written.by), alone: written.alone.clone() };
        Some((entry.name.value.clone(), check))
    };
    declarations.checks.iter().filter_map(check).collect()
}

/// The witness points, their roles followed.
pub(super) fn witnesses(declarations: &Declarations) -> Named<Witness> {
    let witness = |entry: &crate::procedure::written::Entry<crate::procedure::written::WrittenWitness>| {
        let written = entry.thing.as_ref()?;
        Some((entry.name.value.clone(), Witness { what: written.what.clone(), by: name(&written.by) }))
    };
    declarations.witnesses.iter().filter_map(witness).collect()
}
