//! Every declared thing with all its fields: a field that is forgotten here does not compile.

use super::rename::{Rename, Renaming};
use crate::procedure::{
    Alternatives, Bound, Ceiling, Check, Condition, Criterion, Critical, Fasteners, Ground, Group, Hazard,
    Hold, Lapses, Link, NamedStep, Occasion, Passage, Passes, Positions, Reading, ReadingKind, Repeat, Role,
    SecondReading, Section, Sides, Stage, Step, StoppingPoint, Supply, Tool, Typing, Value, VehicleValue,
    Wait, Watch, Witness,
};

/// Things whose fields are all given other names.
macro_rules! all_fields {
    ($($kind:ident { $($field:ident),* })*) => {
        $(impl Rename for $kind {
            fn renamed(&self, to: &Renaming) -> Self {
                let Self { $($field),* } = self;
                Self { $($field: $field.renamed(to)),* }
            }
        })*
    };
}

all_fields! {
    Role { what, checked_by }
    Tool { what, accuracy, calibrated, range }
    Supply { what, amount }
    VehicleValue { what, find, unit, choices }
    Hazard { signal, hazard, consequence, avoid }
    Hold { what, why, confirm, anew, readings, fasteners, release, second, lapses, protection, ends, isolates }
    Lapses { on_resume, when_disturbed, on_people, after }
    Reading { what, why, kind, instrument, stopwatch, fails, sides, source, second, occasion, ceiling, instead }
    Sides { too_low, too_high }
    Ceiling { never_below, never_above, opens }
    SecondReading { by, agree }
    Bound { formula, inclusive }
    Value { what, why, formula, unit, criterion, fails, sides, source }
    Condition { ground, why }
    Wait { what, at_least, at_most }
    Repeat { what, passes, at_most, every, late, resets, fails, not_needed_after }
    Alternatives { what }
    Fasteners { what, positions, order, stages, instrument }
    Stage { what, criterion, unit, read }
    Check { what, by, alone }
    Witness { what, by }
    Critical { what, typing }
    Watch { what, unit, readings, criterion }
    StoppingPoint { what }
    NamedStep { what, shown }
    Passage { kind, text, span }
    Group { order, steps }
    Section { title, conditions, hazards, repeat, level, groups, after, span }
    Step {
        id, number, names, section, parent, before, text, passages, who, conditions, hazards, hold, takes, computes, starts,
        needs, repeat, alternatives, fasteners, checks, witnesses, critical, watch_begins, watch_ends, stopping_point,
        link, groups, source, span
    }
}

impl Rename for Link {
    fn renamed(&self, to: &Renaming) -> Self {
        let Self { title, id, source } = self;
        Self { title: title.clone(), id: to.within(id), source: *source }
    }
}

impl Rename for ReadingKind {
    fn renamed(&self, to: &Renaming) -> Self {
        match self {
            Self::Quantity { unit, plausible, criterion, rule } => Self::Quantity {
                unit: unit.clone(),
                plausible: plausible.clone(),
                criterion: criterion.renamed(to),
                rule: *rule,
            },
            Self::Count { criterion } => Self::Count { criterion: criterion.renamed(to) },
            Self::Choice { choices, accept } => {
                Self::Choice { choices: choices.clone(), accept: accept.clone() }
            }
            Self::Text => Self::Text,
            Self::List { at_least } => Self::List { at_least: *at_least },
            Self::File => Self::File,
            Self::Date { earliest, latest } => Self::Date { earliest: *earliest, latest: *latest },
        }
    }
}

impl Rename for Criterion {
    fn renamed(&self, to: &Renaming) -> Self {
        match self {
            Self::Limits { lower, upper } => {
                Self::Limits { lower: lower.renamed(to), upper: upper.renamed(to) }
            }
            Self::Target { target, within } => {
                Self::Target { target: target.renamed(to), within: within.renamed(to) }
            }
            Self::Nominal(nominal) => Self::Nominal(nominal.renamed(to)),
            Self::InformationOnly => Self::InformationOnly,
        }
    }
}

impl Rename for Ground {
    fn renamed(&self, to: &Renaming) -> Self {
        match self {
            Self::If(formula) => Self::If(formula.renamed(to)),
            Self::Missed(wait) => Self::Missed(wait.renamed(to)),
            Self::GaveUp(repeat) => Self::GaveUp(repeat.renamed(to)),
            Self::Failed(result) => Self::Failed(result.renamed(to)),
        }
    }
}

impl Rename for Occasion {
    fn renamed(&self, to: &Renaming) -> Self {
        match self {
            Self::Plain => Self::Plain,
            Self::AsFound => Self::AsFound,
            Self::AsLeft(found) => Self::AsLeft(found.renamed(to)),
        }
    }
}

impl Rename for Passes {
    fn renamed(&self, to: &Renaming) -> Self {
        match self {
            Self::Each(items) => Self::Each(items.clone()),
            Self::EachOf(list) => Self::EachOf(list.renamed(to)),
            Self::Times(count) => Self::Times(count.renamed(to)),
            Self::Until(end) => Self::Until(end.renamed(to)),
        }
    }
}

impl Rename for Positions {
    fn renamed(&self, to: &Renaming) -> Self {
        match self {
            Self::Named(names) => Self::Named(names.clone()),
            Self::Count(count) => Self::Count(count.renamed(to)),
        }
    }
}

impl Rename for Typing {
    fn renamed(&self, to: &Renaming) -> Self {
        match self {
            Self::Words(words) => Self::Words(words.clone()),
            Self::Value(value) => Self::Value(value.renamed(to)),
        }
    }
}
