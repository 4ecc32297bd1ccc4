//! Every declared thing with all its fields: a field that is forgotten here does not compile.

use super::rename::{Rename, Renaming, all_fields};
use crate::procedure::{
    Bound, Ceiling, Criterion, Fasteners, Group, Hold, Lapses, Link, Occasion, Passage, Passes, Positions,
    Reading, ReadingKind, Repeat, SecondReading, Section, Sides, Stage, Step,
};

all_fields! {
    Hold {
        what, why, confirm, anew, readings, fasteners, release, second, lapses, protection, short, stays, handed_on, ends,
        ends_earlier, isolates
    }
    Lapses { on_resume, when_disturbed, on_people, after }
    Reading { what, why, kind, instrument, stopwatch, fails, sides, source, second, occasion, ceiling, instead }
    Sides { too_low, too_high }
    Ceiling { never_below, never_above, opens }
    SecondReading { by, agree }
    Bound { formula, inclusive }
    Repeat { what, passes, at_most, every, late, resets, fails, not_needed_after }
    Fasteners { what, positions, order, stages, instrument }
    Stage { what, criterion, unit, read }
    Passage { kind, text, address, span }
    Group { order, steps }
    Section { title, conditions, hazards, repeat, level, groups, after, span }
    Step {
        id, number, names, section, parent, before, text, passages, who, conditions, hazards, hold, takes, computes, starts,
        needs, repeat, alternatives, fasteners, checks, witnesses, critical, watch_begins, watch_ends, dues,
        stopping_point, leaves, link, groups, source, span
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
