//! A run at one moment, seen from one occurrence of its work.

use jiff::ZonedDateTime;

use crate::procedure::{Name, Occasion, SectionId, Step, StepId};
use crate::run::book::Book;
use crate::run::memo::{Fact, Memo};
use crate::run::passes::round::Round;
use crate::run::state::State;
use crate::run::work::facts::{Attempts, Said};
use crate::run::work::part::{Address, Part, Turns};
use crate::run::work::tree::{Ending, OccurrenceId, PassEnd};

/// A run at one moment, seen from one occurrence. Everything that is worked out from what was said is a method of this.
#[derive(Clone, Copy)]
pub struct View<'run> {
    /// What the run goes by.
    pub book: &'run Book,
    /// What has happened.
    pub state: &'run State,
    /// What time it is.
    pub now: &'run ZonedDateTime,
    /// From where it is seen: names mean the nearest occurrence. The run itself sees the present.
    pub within: OccurrenceId,
    /// The step for which it is asked, where that matters: what stands in a pass with it means its own pass, also where
    /// nothing was said in that yet.
    pub(super) asked: Option<StepId>,
    /// The passes of a repeat that are just being worked out: what its own formulas see of them.
    pub(super) counted: Option<(&'run Name, &'run Round)>,
    /// What was found out already of this run at this moment, where somebody keeps it.
    pub(super) memo: Option<&'run Memo>,
}

impl<'run> View<'run> {
    /// The run as it is at present.
    pub fn new(book: &'run Book, state: &'run State, now: &'run ZonedDateTime) -> Self {
        Self { book, state, now, within: OccurrenceId::RUN, asked: None, counted: None, memo: None }
    }

    /// The same run at the same moment; what is found out of its steps is kept there.
    #[must_use]
    pub fn remembering(self, memo: &'run Memo) -> Self {
        Self { memo: Some(memo), ..self }
    }

    /// What is known of a step, else as it is worked out. What formulas see while passes are counted is not kept.
    pub(super) fn remembered(
        self,
        fact: Fact,
        step: &Step,
        work_out: impl FnOnce(Self, &Step) -> bool,
    ) -> bool {
        if self.asked.is_some() || self.counted.is_some() {
            return work_out(self, step);
        }
        let lasting = self.state.kept.of(step.id).filter(|_| self.within == OccurrenceId::RUN);
        match (lasting, self.memo) {
            (Some(facts), _) => facts.of(fact, || work_out(self, step)),
            (None, Some(memo)) => memo.of((self.within, fact, step.id), || work_out(self, step)),
            (None, None) => work_out(self, step),
        }
    }

    /// The same run, seen from an occurrence.
    #[must_use]
    pub fn inside(self, within: OccurrenceId) -> Self {
        Self { within, ..self }
    }

    /// The same run, asked for a step.
    pub(super) fn asked_at(self, step: StepId) -> Self {
        Self { asked: Some(step), ..self }
    }

    /// The nearest occurrence of a part; none where nothing was said at it yet.
    pub fn find(self, part: Part) -> Option<OccurrenceId> {
        if self.within == OccurrenceId::RUN {
            return self.state.derived.present(part);
        }
        let tree = &self.state.tree;
        if let Some(around) = tree.outwards(self.within).find(|at| tree.get(*at).part == part) {
            return Some(around);
        }
        let above = self.find(part.around(&self.book.procedure)?)?;
        if self.state.derived.present(tree.get(above).part) == Some(above) {
            return self.state.derived.present(part);
        }
        tree.last_standing(above, part)
    }

    /// What was said at the nearest occurrence of a step.
    pub fn said(self, step: StepId) -> &'run Said {
        self.said_at(self.find(Part::Step(step)))
    }

    /// What was said at the nearest occurrence of a section as a whole.
    pub fn said_of_section(self, section: SectionId) -> &'run Said {
        self.said_at(self.find(Part::Section(section)))
    }

    pub(crate) fn said_at(self, at: Option<OccurrenceId>) -> &'run Said {
        static NOTHING: Said = Said::NOTHING;
        at.map_or(&NOTHING, |at| &self.state.tree.get(at).said)
    }

    /// The address at which something that is said now of a part belongs.
    pub fn place_of(self, part: Part) -> Address {
        let mut above = Some(OccurrenceId::RUN);
        let mut turns = Vec::with_capacity(4);
        for part in part.chain(&self.book.procedure) {
            let found = self.find(part);
            let next = || above.map_or(1, |above| self.state.tree.turns(above, part).len() + 1);
            let turn = found.map_or_else(
                || u32::try_from(next()).unwrap_or(u32::MAX),
                |found| self.state.tree.get(found).turn,
            );
            turns.push(turn);
            above = found;
        }
        Address { part, turns: Turns::of(turns) }
    }

    /// The step at which a reading is taken or a value computed. What a hold point reads that several steps verify is
    /// taken at each: seen from one of them it is that one, else the one where it was read last.
    pub(super) fn home(self, name: &Name) -> Option<StepId> {
        let procedure = &self.book.procedure;
        let first = procedure.home(name)?;
        let hold = procedure.step(first)?.hold.as_ref();
        let steps = hold.map(|hold| procedure.held_at(hold)).unwrap_or_default();
        if steps.len() < 2 {
            return Some(first);
        }
        let tree = &self.state.tree;
        let step_at = |at: OccurrenceId| match tree.get(at).part {
            Part::Step(step) => Some(step).filter(|step| steps.contains(step)),
            _ => None,
        };
        let here = tree.outwards(self.within).find_map(step_at);
        let newest = || step_at(*self.state.read_at.get(name)?.last()?);
        here.or_else(newest).or(Some(first))
    }

    /// What was entered for a reading at its nearest occurrence. What was found before something was begun anew stays
    /// found.
    pub fn entered(self, reading: &Name) -> Option<&'run Attempts> {
        let step = self.home(reading)?;
        let own = self.said(step).reading(reading);
        if own.is_some() || !self.is_as_found(reading) {
            return own;
        }
        let chain = Part::Step(step).chain(&self.book.procedure);
        self.found_before(OccurrenceId::RUN, &chain, reading)
    }

    fn found_before(self, above: OccurrenceId, chain: &[Part], reading: &Name) -> Option<&'run Attempts> {
        let tree = &self.state.tree;
        let Some((part, below)) = chain.split_first() else {
            return tree.get(above).said.reading(reading);
        };
        let turns = tree.turns(above, *part);
        let here = self.find(*part).filter(|here| tree.get(*here).within == above);
        let here = here.and_then(|here| turns.binary_search(&here).ok());
        // Within what was set aside the last turn is the one that was gone on with.
        let here = here.or_else(|| turns.len().checked_sub(1).filter(|_| !self.is_seen(above)));
        let earlier = turns.get(..here.unwrap_or(turns.len())).unwrap_or_default().iter().rev();
        let earlier = earlier.copied().take_while(|turn| tree.is_set_aside(*turn));
        let mut looked = here.and_then(|here| turns.get(here).copied()).into_iter().chain(earlier);
        looked.find_map(|turn| self.found_before(turn, below, reading))
    }

    /// Whether an occurrence is the one that its part means, seen from here.
    fn is_seen(self, at: OccurrenceId) -> bool {
        self.find(self.state.tree.get(at).part) == Some(at)
    }

    /// Whether a reading is one of what was found before an adjustment.
    pub fn is_as_found(self, reading: &Name) -> bool {
        self.book.procedure.reading(reading).is_some_and(|reading| reading.occasion == Occasion::AsFound)
    }

    /// Why the nearest occurrence around a step was set aside, or does not count: nothing where it counts.
    pub fn set_aside(self, at: OccurrenceId) -> Option<&'run PassEnd> {
        let tree = &self.state.tree;
        tree.outwards(at).find_map(|at| match &tree.get(at).end {
            Some(Ending { how: how @ (PassEnd::SetAside(_) | PassEnd::Invalid(_)), .. }) => Some(how),
            _ => None,
        })
    }
}
