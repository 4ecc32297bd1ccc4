//! What the rules look at: a procedure put together as far as it could be read.

use std::collections::BTreeMap;

use super::Names;
use super::formulas::Formulas;
use crate::procedure::document::Outline;
use crate::procedure::written::WrittenHold;
use crate::procedure::{Declarations, Name, Section, Step, StepId, Table};
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
    pub(in crate::procedure) sections: Vec<Section>,
    /// The steps.
    pub(in crate::procedure) steps: Vec<Step>,
    /// Every mention in a step, in reading order.
    pub(in crate::procedure) mentions: Vec<Mention>,
}

/// A name in the text of a step.
#[derive(Clone, Debug)]
pub(in crate::procedure) struct Mention {
    /// The name.
    pub(in crate::procedure) name: Spanned<Name>,
    /// The step.
    pub(in crate::procedure) step: StepId,
}

impl Draft<'_> {
    /// The first step that verifies this hold point.
    pub(in crate::procedure) fn step_of_hold(&self, hold: &Name) -> Option<&Step> {
        self.steps_of_hold(hold).next()
    }

    /// The steps that verify this hold point, in the order of the text.
    pub(in crate::procedure) fn steps_of_hold(&self, hold: &Name) -> impl DoubleEndedIterator<Item = &Step> {
        self.steps.iter().filter(move |step| step.hold.as_ref() == Some(hold))
    }

    /// The hold points that could be read.
    pub(in crate::procedure) fn holds(&self) -> impl Iterator<Item = (&Spanned<Name>, &WrittenHold)> {
        self.declarations.holds.iter().filter_map(|entry| Some((&entry.name, entry.thing.as_ref()?)))
    }

    /// The hold point that takes a reading.
    pub(in crate::procedure) fn hold_of(&self, reading: &Name) -> Option<&Spanned<Name>> {
        let takes = |hold: &WrittenHold| hold.readings.iter().any(|name| name.value == reading.0);
        self.holds().find(|(_, hold)| takes(hold)).map(|(name, _)| name)
    }

    /// The readings that a step takes because it is a hold point.
    pub(in crate::procedure) fn hold_readings(&self, step: &Step) -> Vec<&Name> {
        let hold = self.holds().find(|(name, _)| step.hold.as_ref() == Some(&name.value));
        let readings = hold.into_iter().flat_map(|(_, hold)| &hold.readings);
        readings.filter_map(|reading| self.names.key(&reading.value)).collect()
    }

    /// The step at which a reading is taken or a value computed.
    pub(in crate::procedure) fn source_of(&self, name: &Name) -> Option<&Step> {
        if let Some(hold) = self.hold_of(name) {
            return self.step_of_hold(&hold.value);
        }
        self.steps.iter().find(|step| {
            step.takes.contains(name) || step.computes.contains(name) || step.fasteners.contains(name)
        })
    }

    /// The first mention of a name in a step.
    pub(in crate::procedure) fn mention_in(&self, step: StepId, name: &Name) -> Option<Span> {
        let mention =
            self.mentions.iter().find(|mention| mention.step == step && mention.name.value == *name);
        mention.map(|mention| mention.name.span)
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
