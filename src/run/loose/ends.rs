//! Which loose ends there are, and what became of each.

use crate::procedure::{Name, Step};
use crate::run::loose::event::EndId;
use crate::run::loose::facts::Became;
use crate::run::prompt::Ask;
use crate::run::stamp::Stamp;
use crate::run::view::View;
use crate::run::work::part::Part;
use crate::run::work::tree::OccurrenceId;

/// A loose end as it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct LooseEnd<'run> {
    /// Which.
    pub id: EndId,
    /// What is left to be done.
    pub what: String,
    /// Where it was left: a step with its pass, a remark, an earlier run.
    pub left_at: String,
    /// The entry that left it; none of one that an earlier run left.
    pub stamp: Option<Stamp>,
    /// What became of it; nothing while it is open.
    pub became: Option<(&'run Became, &'run Stamp)>,
}

impl<'run> View<'run> {
    /// All loose ends: those that the job handed on, then this run's own in the order in which they were left.
    pub fn loose_ends(self) -> Vec<LooseEnd<'run>> {
        let handed = self.state.start.iter().flat_map(|(start, _)| &start.inherited.loose_ends);
        let handed = handed.enumerate().map(|(place, end)| {
            let left_at = format!("run {}, entry {}", end.run, end.entry);
            self.loose_end(EndId::HandedOn(place), end.what.clone(), left_at, None)
        });
        let noted = self.state.loose.noted.iter().map(|(stamp, what)| {
            let id = EndId::Own { entry: stamp.seq, name: None };
            self.loose_end(id, what.clone(), "a remark".to_owned(), Some(stamp.clone()))
        });
        let steps = self.book.procedure.steps().iter();
        let of_steps = steps.filter(|step| !step.leaves.is_empty()).flat_map(|step| self.left_by(step));
        let mut own: Vec<LooseEnd<'run>> = noted.chain(of_steps).collect();
        own.sort_by_key(|end| end.stamp.as_ref().map(|stamp| stamp.seq));
        handed.chain(own).collect()
    }

    /// Those that nothing has become of yet.
    pub fn open_ends(self) -> Vec<LooseEnd<'run>> {
        self.loose_ends().into_iter().filter(|end| end.became.is_none()).collect()
    }

    /// Whether what is loose has to be settled before this run is closed: nothing of its job comes after it.
    pub(in crate::run) fn leaves_nothing_loose(self) -> bool {
        self.state.start.as_ref().is_some_and(|(start, _)| start.job.is_none() || start.inherited.is_last)
    }

    pub(in crate::run) fn ask_loose_end(self) -> Option<Ask> {
        let open = || self.open_ends().into_iter().next();
        self.leaves_nothing_loose().then(open).flatten().map(|end| Ask::LooseEnd(end.id))
    }

    fn loose_end(self, id: EndId, what: String, left_at: String, stamp: Option<Stamp>) -> LooseEnd<'run> {
        let became = self.state.loose.became.iter().rev().find(|(of, _, _)| *of == id);
        let became = became.map(|(_, became, stamp)| (became, stamp));
        LooseEnd { id, what, left_at, stamp, became }
    }

    /// What each occurrence of a step that is done and counts leaves.
    fn left_by(self, step: &'run Step) -> Vec<LooseEnd<'run>> {
        let all = self.state.tree.all().filter(|(_, occurrence)| occurrence.part == Part::Step(step.id));
        let places = all.map(|(at, _)| at).filter(|at| self.counts(*at));
        places
            .flat_map(|at| step.leaves.iter().filter_map(move |name| self.left_at(step, at, name)))
            .collect()
    }

    fn left_at(self, step: &Step, at: OccurrenceId, name: &Name) -> Option<LooseEnd<'run>> {
        let here = self.inside(at);
        let done = here.completed(step)?;
        let only = self.book.procedure.loose_end(name)?.only.as_ref();
        if only.is_some_and(|condition| here.condition(condition) != Some(true)) {
            return None;
        }
        let entry = self.state.tree.get(at).began.as_ref()?.seq;
        let pass = here.pass_words(step.id).map(|pass| format!(", {pass}")).unwrap_or_default();
        let what = self.book.procedure.what(name).unwrap_or_default().to_owned();
        let left_at = format!("step {}{pass}", step.number);
        Some(self.loose_end(EndId::Own { entry, name: Some(name.clone()) }, what, left_at, Some(done)))
    }
}
