//! What the rules look at: a procedure put together as far as it could be read.

use std::cell::RefCell;
use std::collections::BTreeMap;

use super::Names;
use super::formulas::Formulas;
use super::places::{Mention, Places};
use super::steps::mentions_of;
use crate::procedure::document::Outline;
use crate::procedure::written::WrittenHold;
use crate::procedure::{Declarations, Name, Section, SectionId, Step, StepId, Table};
use crate::source::{Span, Spanned};

/// Everything that is known of a procedure when the rules judge it. Parts of it may be broken.
#[derive(Debug)]
pub(in crate::procedure) struct Draft<'d> {
    /// What was written in the front matter.
    pub(in crate::procedure) declarations: &'d Declarations,
    /// What was written in the body.
    pub(in crate::procedure) outline: &'d Outline,
    /// The declared names.
    pub(in crate::procedure) names: &'d Names,
    /// The proved formulas.
    pub(in crate::procedure) formulas: &'d Formulas,
    /// The sections.
    pub(in crate::procedure) sections: &'d [Section],
    /// The steps.
    pub(in crate::procedure) steps: &'d [Step],
    /// Every mention in a step, in reading order.
    pub(in crate::procedure) mentions: &'d [Mention],
    /// Where each name stands.
    pub(super) places: Places<'d>,
    /// What single conditions come to; worked out when it is first asked for.
    pub(in crate::procedure) decided: RefCell<BTreeMap<Name, Decided>>,
}

/// What a condition comes to over all answers to what it speaks of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::procedure) enum Decided {
    /// It holds in some cases and not in others.
    Either,
    /// It always holds.
    Always,
    /// It never holds.
    Never,
    /// That is not decided by choices alone.
    Open,
}

impl Draft<'_> {
    /// The mentions in a step's own words, in reading order: first those that were taken off its front.
    pub(in crate::procedure) fn mentions_said<'s>(
        &'s self,
        step: &'s Step,
    ) -> impl Iterator<Item = &'s Spanned<Name>> {
        let written = self.outline.steps.get(step.id.0);
        let front = written.map(|written| written.text.as_slice()).unwrap_or_default();
        mentions_of(front).chain(mentions_of(&step.text))
    }

    /// The first step that verifies this hold point.
    pub(in crate::procedure) fn step_of_hold(&self, hold: &Name) -> Option<&Step> {
        self.steps_of_hold(hold).next()
    }

    /// The steps that verify this hold point, in the order of the text.
    pub(in crate::procedure) fn steps_of_hold(&self, hold: &Name) -> impl DoubleEndedIterator<Item = &Step> {
        self.steps_with(hold).filter(move |step| step.hold.as_ref() == Some(hold))
    }

    /// The steps that mention a name, in the order of the text.
    pub(in crate::procedure) fn steps_with(&self, name: &Name) -> impl DoubleEndedIterator<Item = &Step> {
        self.places.steps(name)
    }

    /// The mentions of a name in steps, in reading order.
    pub(in crate::procedure) fn mentions_of(&self, name: &Name) -> &[&Mention] {
        self.places.mentions(name)
    }

    /// The mentions in a step, in reading order.
    pub(in crate::procedure) fn mentions_in(&self, step: StepId) -> &[Mention] {
        let from = self.mentions.partition_point(|mention| mention.step < step);
        let to = self.mentions.partition_point(|mention| mention.step <= step);
        self.mentions.get(from..to).unwrap_or_default()
    }

    /// The steps of a section.
    pub(in crate::procedure) fn steps_in(&self, section: SectionId) -> &[Step] {
        let from = self.steps.partition_point(|step| step.section < section);
        let to = self.steps.partition_point(|step| step.section <= section);
        self.steps.get(from..to).unwrap_or_default()
    }

    /// The sections that a repeat repeats.
    pub(in crate::procedure) fn repeated(&self, repeat: &Name) -> &[SectionId] {
        self.places.repeated(repeat)
    }

    /// Whether a step is shown with that number.
    pub(in crate::procedure) fn is_number(&self, number: &str) -> bool {
        self.places.is_number(number)
    }

    /// The hold points that could be read.
    pub(in crate::procedure) fn holds(&self) -> impl Iterator<Item = (&Spanned<Name>, &WrittenHold)> {
        self.declarations.holds.iter().filter_map(|entry| Some((&entry.name, entry.thing.as_deref()?)))
    }

    /// The hold point of that name, where it could be read.
    pub(in crate::procedure) fn hold(&self, name: &str) -> Option<(&Spanned<Name>, &WrittenHold)> {
        let entry = self.declarations.holds.named(name)?;
        Some((&entry.name, entry.thing.as_deref()?))
    }

    /// The hold point that takes a reading.
    pub(in crate::procedure) fn hold_of(&self, reading: &Name) -> Option<&Spanned<Name>> {
        self.places.hold_of(reading)
    }

    /// The readings that a step takes because it is a hold point.
    pub(in crate::procedure) fn hold_readings(&self, step: &Step) -> Vec<&Name> {
        let hold = step.hold.as_ref().and_then(|hold| self.declarations.holds.thing(hold.as_str()));
        let readings = hold.into_iter().flat_map(|hold| &hold.readings);
        readings.filter_map(|reading| self.names.key(&reading.value)).collect()
    }

    /// The step at which a reading is taken or a value computed.
    pub(in crate::procedure) fn source_of(&self, name: &Name) -> Option<&Step> {
        if let Some(hold) = self.hold_of(name) {
            return self.step_of_hold(&hold.value);
        }
        self.steps_with(name).find(|step| {
            step.takes.contains(name) || step.computes.contains(name) || step.fasteners.contains(name)
        })
    }

    /// The first mention of a name in a step.
    pub(in crate::procedure) fn mention_in(&self, step: StepId, name: &Name) -> Option<Span> {
        self.places.mentions_in(step, name).first().map(|mention| mention.name.span)
    }

    /// The step of that place.
    pub(in crate::procedure) fn step(&self, id: StepId) -> Option<&Step> {
        self.steps.get(id.0)
    }

    /// All conditions that a step stands under: its own, those of the steps it is a part of, its section's.
    pub(in crate::procedure) fn conditions_over<'s>(&'s self, step: &'s Step) -> Vec<&'s Name> {
        let mut all: Vec<&Name> = Vec::new();
        let mut at = Some(step);
        while let Some(step) = at {
            all.extend(&step.conditions);
            at = step.parent.and_then(|parent| self.step(parent));
        }
        all.extend(self.sections.get(step.section.0).into_iter().flat_map(|section| &section.conditions));
        all
    }

    /// Where each condition is declared and everything its formula speaks of.
    pub(in crate::procedure) fn inputs(&self) -> &BTreeMap<Name, Vec<Spanned<Name>>> {
        &self.formulas.inputs
    }

    /// Whether a name stands in that table.
    pub(in crate::procedure) fn is(&self, name: &Name, table: Table) -> bool {
        self.names.table(name) == Some(table)
    }
}
