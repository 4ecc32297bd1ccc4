//! Limits that stay in force over several steps.

use super::apply::Next;
use super::book::Book;
use super::event::Stamp;
use super::state::State;
use super::view::View;
use super::world::Known;
use crate::procedure::{Name, Step};
use crate::quantity::{Outcome, Quantity, judge};

/// A limit in force.
#[derive(Clone, Debug, PartialEq)]
pub struct LimitInForce<'run> {
    /// What is watched.
    pub what: &'run str,
    /// Since when.
    pub since: &'run Stamp,
}

impl<'run> View<'run> {
    /// The limits in force over several steps, in the order of the file.
    pub fn limits_in_force(self) -> Vec<LimitInForce<'run>> {
        let watches = self.book.procedure.watches().iter();
        let in_force = watches.filter_map(|(name, watch)| {
            let since = self.state.taking.in_force.get(name)?;
            Some(LimitInForce { what: &watch.what, since })
        });
        in_force.collect()
    }

    /// Whether the end of a limit in force has come: its last step is done, or does not apply and all before it is settled.
    fn is_let_go(self, step: &Step) -> bool {
        if self.state.completed.contains_key(&step.id) {
            return true;
        }
        let before = self.book.procedure.steps().iter().take_while(|other| other.id < step.id);
        self.is_not_applicable(step) && before.into_iter().all(|other| self.is_settled(other))
    }
}

impl Next<'_> {
    /// What came into force with the steps that are done now, and what went.
    pub(super) fn watch(&mut self) {
        for (name, _) in self.book.procedure.watches().iter() {
            let mut steps = self.book.procedure.steps().iter();
            let begins = steps.clone().find(|step| step.watch_begins.contains(name));
            let ends = steps.find(|step| step.watch_ends.contains(name));
            let view = self.view();
            let begun = begins.is_some_and(|step| view.state.completed.contains_key(&step.id));
            let let_go = ends.is_some_and(|step| view.is_let_go(step));
            if let_go {
                self.state.taking.in_force.remove(name);
            } else if begun {
                let stamp = self.stamp.clone();
                self.state.taking.in_force.entry(name.clone()).or_insert(stamp);
            }
        }
    }
}

impl Book {
    /// How a result breaks one of these limits in force; none where it keeps them all.
    pub(super) fn breaks_watch(&self, state: &State, result: &Quantity, watches: &[Name]) -> Option<String> {
        watches.iter().find_map(|name| self.breaks(state, result, name))
    }

    fn breaks(&self, state: &State, result: &Quantity, name: &Name) -> Option<String> {
        let watch = self.procedure.watch(name)?;
        match super::judge::limits_of(&watch.criterion, &Known::new(self, state)) {
            Ok(super::judge::InForce::Limits(limits)) => {
                let verdict = judge(result, &limits).ok()?;
                let said = verdict.to_string();
                let said = said.strip_prefix("fail, ").unwrap_or(&said);
                (verdict.outcome == Outcome::Fail).then(|| format!("{said} in force ({})", watch.what))
            }
            Ok(_) => None,
            Err(_) => Some(format!("the limit in force is not known ({})", watch.what)),
        }
    }
}
