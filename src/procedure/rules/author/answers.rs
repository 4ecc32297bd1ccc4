//! How many questions the way asks, when everything is as it should be and each repeat is made once.

use std::collections::{BTreeMap, BTreeSet};

use super::asked::{Part, demands_a_word, is_led, of_step, picks, places_at};
use super::certain::{Standing, standing};
use crate::procedure::check::Draft;
use crate::procedure::{LevelOfUse, Name, Section, SectionId, Step};

/// The questions of a procedure, counted.
#[derive(Default)]
pub(super) struct Answers {
    always: BTreeMap<Part, usize>,
    /// The places of fasteners, however many: they are the work itself.
    fasteners: usize,
    /// Those under conditions.
    perhaps: usize,
}

impl Answers {
    /// Counts what a file asks. What it links to is not counted.
    pub(super) fn of(draft: &Draft<'_>) -> Self {
        let mut answers = Self::default();
        answers.always.insert(Part::Frame, frame(draft));
        let (mut read, mut waited) = (BTreeSet::new(), BTreeSet::new());
        for (place, section) in draft.sections.iter().enumerate() {
            answers.add_section(draft, SectionId(place), section, &mut read);
        }
        for step in draft.steps {
            let hazards = unread(draft, step, &mut read);
            answers.add(draft, step, vec![(Part::Hazard, hazards)]);
            answers.add(draft, step, of_step(draft, step, &mut waited));
            answers.add_places(draft, step);
        }
        answers
    }

    /// How many are asked whatever is found.
    pub(super) fn always(&self) -> usize {
        self.always.values().sum()
    }

    /// How many more are asked at groups of fasteners, place by place.
    pub(super) const fn fasteners(&self) -> usize {
        self.fasteners
    }

    /// How many more there are where all conditions hold.
    pub(super) const fn perhaps(&self) -> usize {
        self.perhaps
    }

    /// The sorts of those that are always asked, the largest first.
    pub(super) fn largest(&self) -> Vec<(Part, usize)> {
        let mut sums: Vec<(Part, usize)> = self.always.iter().map(|(part, count)| (*part, *count)).collect();
        sums.sort_by_key(|(_, count)| std::cmp::Reverse(*count));
        sums
    }

    /// What a step asks, by the conditions that it stands under.
    fn add(&mut self, draft: &Draft<'_>, step: &Step, counts: Vec<(Part, usize)>) {
        match standing(draft, step) {
            Standing::Always => {
                for (part, count) in counts {
                    *self.always.entry(part).or_default() += count;
                }
            }
            Standing::Perhaps => self.perhaps += counts.iter().map(|(_, count)| count).sum::<usize>(),
            Standing::Amiss => {}
        }
    }

    fn add_places(&mut self, draft: &Draft<'_>, step: &Step) {
        match standing(draft, step) {
            Standing::Always => self.fasteners += places_at(draft, step),
            Standing::Perhaps => self.perhaps += places_at(draft, step),
            Standing::Amiss => {}
        }
    }

    /// What a section asks beside its steps: its hazards, the choice among them, its end. It belongs to the first step that
    /// is done whatever is found.
    fn add_section(&mut self, draft: &Draft<'_>, id: SectionId, section: &Section, read: &mut Read) {
        let steps = || draft.steps_in(id).iter();
        let certain = steps().find(|step| standing(draft, step) == Standing::Always);
        let Some(first) = certain.or_else(|| steps().next()) else { return };
        let hazards = section.hazards.iter().filter(|hazard| demands_a_word(draft, hazard));
        let hazards = hazards.filter(|hazard| read.insert((id, (*hazard).clone()))).count();
        let end = usize::from(section.repeat.is_none() && is_end_asked(draft, id, section));
        let together = usize::from(section.level != LevelOfUse::Continuous && !is_led(draft, id, section));
        let mut counts = vec![(Part::Hazard, hazards), (Part::End, end), (Part::Done, together)];
        counts.extend(section.groups.iter().map(|group| (Part::Pick, picks(draft, group))));
        self.add(draft, first, counts);
    }
}

/// The hazards that were read in a section: once is enough.
type Read = BTreeSet<(SectionId, Name)>;

/// How many hazards of a step nobody has read in its section yet.
fn unread(draft: &Draft<'_>, step: &Step, read: &mut Read) -> usize {
    let is_certain = standing(draft, step) == Standing::Always;
    let mut is_new = |hazard: &&Name| {
        let known = (step.section, (*hazard).clone());
        if is_certain { read.insert(known) } else { !read.contains(&known) }
    };
    let hazards = step.hazards.iter().filter(|hazard| demands_a_word(draft, hazard));
    hazards.filter(|hazard| is_new(hazard)).count()
}

/// Whether somebody calls a section complete: where the job can be left after it, and where it is done in another way
/// than its procedure.
fn is_end_asked(draft: &Draft<'_>, id: SectionId, section: &Section) -> bool {
    let usual =
        draft.declarations.header.as_ref().map_or(LevelOfUse::Continuous, |header| header.level_of_use);
    let last = draft.steps_in(id).last();
    let mut around = std::iter::successors(last, |step| draft.step(step.parent?));
    section.level != usual || around.any(|step| step.stopping_point.is_some())
}

/// The names, the pre-job brief, the odometer, the scope, what must be so before and after, the instruments, the close.
fn frame(draft: &Draft<'_>) -> usize {
    let declarations = draft.declarations;
    let roles = declarations.roles.len();
    let brief = usize::from(roles > 1 && draft.steps.iter().any(|step| step.hold.is_some()));
    let of_header = declarations
        .header
        .as_ref()
        .map_or(0, |header| usize::from(header.odometer) + header.required.len() + header.close_up.len());
    let with_tool =
        declarations.readings.iter().filter_map(|entry| entry.thing.as_deref()?.instrument.as_ref());
    let set_tool =
        declarations.fasteners.iter().filter_map(|entry| entry.thing.as_deref()?.instrument.as_ref());
    let used: BTreeSet<&str> = with_tool.chain(set_tool).map(|name| name.value.as_str()).collect();
    let named = declarations.tools.iter().filter(|entry| {
        let is_calibrated = entry.thing.as_deref().is_some_and(|tool| tool.calibrated);
        is_calibrated && used.contains(entry.name.value.as_str())
    });
    // The scope before it, the close after it.
    roles + brief + of_header + named.count() + 2
}
