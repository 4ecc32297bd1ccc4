//! Where in the steps each name stands: worked out once, looked up often.

use std::collections::{HashMap, HashSet};

use crate::procedure::written::WrittenHold;
use crate::procedure::{Declarations, Name, Section, SectionId, Step, StepId};
use crate::source::Spanned;

/// A name in the text of a step.
#[derive(Clone, Debug)]
pub(in crate::procedure) struct Mention {
    /// The name.
    pub(in crate::procedure) name: Spanned<Name>,
    /// The step.
    pub(in crate::procedure) step: StepId,
}

/// Where in the steps each name stands.
#[derive(Debug)]
pub(super) struct Places<'d> {
    steps: &'d [Step],
    mentions: HashMap<&'d Name, Vec<&'d Mention>>,
    /// The hold point that takes a reading.
    holds: HashMap<&'d str, &'d Spanned<Name>>,
    /// The sections that a repeat repeats.
    repeated: HashMap<&'d Name, Vec<SectionId>>,
    numbers: HashSet<&'d str>,
}

impl<'d> Places<'d> {
    pub(super) fn of(
        declarations: &'d Declarations,
        sections: &'d [Section],
        steps: &'d [Step],
        mentions: &'d [Mention],
    ) -> Self {
        let mut places = Self {
            steps,
            mentions: HashMap::new(),
            holds: HashMap::new(),
            repeated: HashMap::new(),
            numbers: steps.iter().map(|step| step.number.as_str()).collect(),
        };
        for mention in mentions {
            places.mentions.entry(&mention.name.value).or_default().push(mention);
        }
        for entry in declarations.holds.iter() {
            let readings = entry.thing.as_deref().into_iter().flat_map(|hold: &WrittenHold| &hold.readings);
            for reading in readings {
                places.holds.entry(reading.value.as_str()).or_insert(&entry.name);
            }
        }
        for (place, section) in sections.iter().enumerate() {
            if let Some(repeat) = &section.repeat {
                places.repeated.entry(repeat).or_default().push(SectionId(place));
            }
        }
        places
    }

    /// The mentions of a name in steps, in reading order.
    pub(super) fn mentions(&self, name: &Name) -> &[&'d Mention] {
        self.mentions.get(name).map(Vec::as_slice).unwrap_or_default()
    }

    /// The mentions of a name in one step, in reading order.
    pub(super) fn mentions_in(&self, step: StepId, name: &Name) -> &[&'d Mention] {
        let all = self.mentions(name);
        let from = all.partition_point(|mention| mention.step < step);
        let to = all.partition_point(|mention| mention.step <= step);
        all.get(from..to).unwrap_or_default()
    }

    /// The steps that mention a name, in the order of the text.
    pub(super) fn steps(&self, name: &Name) -> impl DoubleEndedIterator<Item = &'d Step> {
        let all = self.mentions(name);
        let is_first = move |place: usize| {
            let before = place.checked_sub(1).and_then(|before| all.get(before));
            before.map(|mention| mention.step) != all.get(place).map(|mention| mention.step)
        };
        let firsts = (0..all.len()).filter(move |place| is_first(*place));
        let steps = self.steps;
        firsts.filter_map(move |place| steps.get(all.get(place)?.step.0))
    }

    /// The hold point that takes a reading.
    pub(super) fn hold_of(&self, reading: &Name) -> Option<&'d Spanned<Name>> {
        self.holds.get(reading.as_str()).copied()
    }

    /// The sections that a repeat repeats.
    pub(super) fn repeated(&self, repeat: &Name) -> &[SectionId] {
        self.repeated.get(repeat).map(Vec::as_slice).unwrap_or_default()
    }

    /// Whether a step is shown with that number.
    pub(super) fn is_number(&self, number: &str) -> bool {
        self.numbers.contains(number)
    }
}
