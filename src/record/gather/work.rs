//! The work of a run as it was unrolled: every occurrence of every step, once, in the order of the text and of the passes.

use super::passes::{PassOf, every_pass};
use crate::journal::write_time;
use crate::procedure::{Name, SectionId, Step, StepId};
use crate::record::model::{Aside, Moment, Place};
use crate::run::{Book, Event, OccurrenceId, Part, PassEnd, Stamp, View, doers};
use std::collections::{BTreeMap, BTreeSet};

/// One occurrence of a step, or a step of which nothing was said there.
#[derive(Clone, Copy)]
pub(in crate::record) struct Seen<'run> {
    pub(in crate::record) step: &'run Step,
    /// The occurrence; none where nothing was said at it.
    pub(in crate::record) at: Option<OccurrenceId>,
    /// The occurrence that it belongs to.
    within: OccurrenceId,
}

impl Seen<'_> {
    /// From where it is seen.
    pub(in crate::record) fn from(&self) -> OccurrenceId {
        self.at.unwrap_or(self.within)
    }
}

/// A run at its end, with all its work.
pub(in crate::record) struct Work<'run> {
    pub(in crate::record) view: View<'run>,
    pub(in crate::record) seen: Vec<Seen<'run>>,
    pub(in crate::record) passes: BTreeMap<OccurrenceId, PassOf>,
    events: &'run [(Event, Stamp)],
    by_step: Vec<Vec<Seen<'run>>>,
}

impl<'run> Work<'run> {
    pub(in crate::record) fn new(view: View<'run>, events: &'run [(Event, Stamp)]) -> Self {
        let mut seen = Vec::new();
        let procedure = &view.book.procedure;
        for section in (0..procedure.sections().len()).map(SectionId) {
            let steps: Vec<&Step> =
                procedure.steps_in(section).filter(|step| step.parent.is_none()).collect();
            for turn in turns(view, OccurrenceId::RUN, Part::Section(section)) {
                let within = turn.unwrap_or(OccurrenceId::RUN);
                for step in &steps {
                    see(view, step, within, &mut seen);
                }
            }
        }
        let mut by_step = vec![Vec::new(); procedure.steps().len()];
        for seen in &seen {
            by_step[seen.step.id.0].push(*seen);
        }
        Self { view, seen, passes: every_pass(view), events, by_step }
    }

    pub(in crate::record) fn book(&self) -> &'run Book {
        self.view.book
    }

    /// Every occurrence of a step, in order.
    pub(in crate::record) fn of(&self, step: StepId) -> &[Seen<'run>] {
        self.by_step.get(step.0).map(Vec::as_slice).unwrap_or_default()
    }

    /// Every occurrence of the steps at which a name gets its value, in order: what a hold point reads is read at each of
    /// its steps.
    pub(in crate::record) fn of_name(&self, name: &Name) -> Vec<Seen<'run>> {
        let procedure = &self.book().procedure;
        let holds = procedure.holds().iter().filter(|(_, hold)| hold.readings.contains(name));
        let held = holds.flat_map(|(hold, _)| procedure.held_at(hold)).copied();
        let steps: BTreeSet<StepId> = procedure.home(name).into_iter().chain(held).collect();
        steps.into_iter().flat_map(|step| self.of(step)).copied().collect()
    }

    /// The run as it is seen from there.
    pub(in crate::record) fn inside(&self, seen: &Seen<'run>) -> View<'run> {
        self.view.inside(seen.from())
    }

    /// Where it stands, in turns and in words.
    pub(in crate::record) fn place(&self, seen: &Seen<'_>) -> Place {
        self.place_at(seen.from())
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
        let roles = step.map_or_else(|| vec![Name("lead".to_owned())], doers);
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

fn see<'run>(view: View<'run>, step: &'run Step, within: OccurrenceId, seen: &mut Vec<Seen<'run>>) {
    let procedure = &view.book.procedure;
    for at in turns(view, within, Part::Step(step.id)) {
        seen.push(Seen { step, at, within });
        let parts = step.groups.iter().flat_map(|group| &group.steps);
        for part in parts.filter_map(|part| procedure.step(*part)) {
            see(view, part, at.unwrap_or(within), seen);
        }
    }
}

/// The turns of a part; nothing said, where there are none, or where the last was set aside and none begun since.
fn turns(view: View<'_>, within: OccurrenceId, part: Part) -> Vec<Option<OccurrenceId>> {
    let tree = &view.state.tree;
    let mut turns: Vec<Option<OccurrenceId>> = tree.turns(within, part).iter().copied().map(Some).collect();
    let is_present = view.state.derived.present(tree.get(within).part) == Some(within);
    let is_set_aside = turns.last().copied().flatten().is_some_and(|last| tree.is_set_aside(last));
    if turns.is_empty() || (is_present && is_set_aside && view.state.derived.present(part).is_none()) {
        turns.push(None);
    }
    turns
}
