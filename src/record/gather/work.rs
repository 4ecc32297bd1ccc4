//! The work of a run as it was unrolled: every occurrence of every step, once, in the order of the text and of the passes.

use super::passes::{PassOf, every_pass};
use crate::journal::write_time;
use crate::procedure::{Name, Step, StepId};
use crate::record::model::{Aside, Moment, Place};
use crate::run::{Book, Event, OccurrenceId, PassEnd, Stamp, StepAt, View, doers};
use std::collections::{BTreeMap, BTreeSet};

/// A run at its end, with all its work.
pub(in crate::record) struct Work<'run> {
    pub(in crate::record) view: View<'run>,
    pub(in crate::record) seen: Vec<StepAt<'run>>,
    pub(in crate::record) passes: BTreeMap<OccurrenceId, PassOf>,
    /// The step that is asked about at its end.
    pub(in crate::record) current: Option<StepId>,
    events: &'run [(Event, Stamp)],
    by_step: Vec<Vec<StepAt<'run>>>,
}

impl<'run> Work<'run> {
    pub(in crate::record) fn new(view: View<'run>, events: &'run [(Event, Stamp)]) -> Self {
        let (seen, procedure) = (view.unrolled(), &view.book.procedure);
        let mut by_step = vec![Vec::new(); procedure.steps().len()];
        for seen in &seen {
            by_step[seen.step.id.0].push(*seen);
        }
        Self { view, seen, passes: every_pass(view), current: view.next().step, events, by_step }
    }

    pub(in crate::record) fn book(&self) -> &'run Book {
        self.view.book
    }

    /// Every occurrence of a step, in order.
    pub(in crate::record) fn of(&self, step: StepId) -> &[StepAt<'run>] {
        self.by_step.get(step.0).map(Vec::as_slice).unwrap_or_default()
    }

    /// Every occurrence of the steps at which a name gets its value, in order: what a hold point reads is read at each of
    /// its steps.
    pub(in crate::record) fn of_name(&self, name: &Name) -> Vec<StepAt<'run>> {
        let procedure = &self.book().procedure;
        let holds = procedure.holds().iter().filter(|(_, hold)| hold.readings.contains(name));
        let held = holds.flat_map(|(hold, _)| procedure.held_at(hold)).copied();
        let steps: BTreeSet<StepId> = procedure.home(name).into_iter().chain(held).collect();
        steps.into_iter().flat_map(|step| self.of(step)).copied().collect()
    }

    /// The run as it is seen from there.
    pub(in crate::record) fn inside(&self, seen: &StepAt<'run>) -> View<'run> {
        self.view.inside(seen.from())
    }

    /// Where it stands, in turns and in words.
    pub(in crate::record) fn place(&self, seen: &StepAt<'_>) -> Place {
        let begun = self.place_at(seen.from());
        let pass = || self.inside(seen).pass_words(seen.step.id);
        Place {
            turns: self.view.address(*seen).turns.written().to_vec(),
            pass: if seen.at.is_some() { begun.pass } else { pass() },
            aside: begun.aside,
        }
    }

    /// Where an occurrence stands, in turns and in words.
    pub(in crate::record) fn place_at(&self, at: OccurrenceId) -> Place {
        let passes: Vec<&str> = self.passes_around(at).into_iter().map(|pass| pass.words.as_str()).collect();
        Place {
            turns: self.view.state.tree.place(at).turns.written().to_vec(),
            pass: (!passes.is_empty()).then(|| passes.join(", ")),
            aside: self.view.set_aside(at).and_then(aside),
        }
    }

    /// The passes that an occurrence stands in, the outermost first.
    pub(in crate::record) fn passes_around(&self, at: OccurrenceId) -> Vec<&PassOf> {
        let around = self.view.state.tree.outwards(at).filter_map(|at| self.passes.get(&at));
        let mut around: Vec<&PassOf> = around.collect();
        around.reverse();
        around
    }

    /// When an entry was made; entries are numbered without a gap.
    pub(in crate::record) fn moment(&self, entry: u64) -> Moment {
        let place = usize::try_from(entry).ok().and_then(|entry| entry.checked_sub(1));
        let stamp = place.and_then(|place| self.events.get(place)).map(|(_, stamp)| stamp);
        stamp.map_or_else(|| Moment { entry, at: String::new() }, moment)
    }

    /// The people whose step it was at an entry: those of its roles, else the lead.
    pub(in crate::record) fn people(&self, step: Option<&Step>, entry: u64) -> Vec<String> {
        let roles = step.map_or_else(|| vec![Name::from("lead")], doers);
        roles.iter().filter_map(|role| self.view.state.people.at(role, entry)).map(str::to_owned).collect()
    }
}

/// When an entry was made, on its way to the disk.
pub(in crate::record) fn moment(stamp: &Stamp) -> Moment {
    Moment { entry: stamp.seq, at: write_time(&stamp.at) }
}

fn aside(how: &PassEnd) -> Option<Aside> {
    let (how, reason) = match how {
        PassEnd::SetAside(reason) => ("set aside", reason),
        PassEnd::Invalid(reason) => ("does not count", reason),
        PassEnd::Counts | PassEnd::GivenUp(_) => return None,
    };
    Some(Aside { how: how.to_owned(), reason: reason.clone() })
}
