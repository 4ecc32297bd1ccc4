//! What a person says of a result beside a nominal value: good, or not good.

use crate::procedure::{Name, Step, StepId};
use crate::run::apply::Next;
use crate::run::people::event::{PeopleAsk, PeopleEvent};
use crate::run::people::oversight::doers;
use crate::run::prompt::Ask;
use crate::run::view::View;
use crate::run::work::opinion::Opinion;
use crate::run::work::taken::Taken;

impl<'run> View<'run> {
    /// What was last said of a result at its nearest occurrence, where nothing that it rests on was entered since.
    pub fn opinion(self, name: &Name) -> Option<Opinion> {
        let step = self.home(name)?;
        let opinion = self.said(step).reading(name)?.opinions.last()?;
        let stands = self.book.moved_by(name).iter().all(|behind| self.changed(behind) < opinion.stamp.seq);
        stands.then(|| self.by_name(opinion))
    }

    /// What was said of an attempt, also of one that is not the newest: before anything else was entered for the reading.
    pub(in crate::run) fn opinion_on(self, name: &Name, taken: &Taken) -> Option<Opinion> {
        let attempts = self.entered(name)?;
        let entries = attempts.taken.iter().map(|taken| taken.stamp.seq);
        let Some(next) = entries.filter(|entry| *entry > taken.stamp.seq).min() else {
            return self.opinion(name);
        };
        let opinions = attempts.opinions.iter().rev();
        let mut before = opinions.filter(|opinion| opinion.stamp.seq < next);
        let opinion = before.next().filter(|opinion| opinion.stamp.seq > taken.stamp.seq);
        opinion.map(|opinion| self.by_name(opinion))
    }

    /// An opinion under the name of the person as it stands.
    fn by_name(self, opinion: &Opinion) -> Opinion {
        let person = self.state.people.known_as(&opinion.person, opinion.stamp.seq);
        Opinion { person: person.to_owned(), ..opinion.clone() }
    }

    /// Whether a person has still to say if a result is good.
    pub fn awaits_opinion(self, name: &Name) -> bool {
        self.judge(name).is_some_and(|judged| judged.judgement.awaits_opinion())
    }

    /// Who says whether what a step reads or computes is good: the person whose step it is.
    pub fn judges(self, step: Option<StepId>) -> &'run str {
        let step = step.and_then(|step| self.book.procedure.step(step));
        let role = step.and_then(|step| doers(step).into_iter().next());
        role.and_then(|role| self.state.people.get(&role)).map_or("", String::as_str)
    }

    /// The question whether a result is good, where it was not answered yet.
    pub(in crate::run) fn ask_opinion(self, name: &Name) -> Option<Ask> {
        self.awaits_opinion(name).then(|| Ask::People(PeopleAsk::Nominal(name.clone())))
    }

    /// The same of the results of a step.
    pub(in crate::run) fn ask_opinions(self, step: &Step) -> Option<Ask> {
        let taken = step.takes.iter().filter(|name| self.is_taken(name) && !self.is_blind(name));
        let all_taken = step.takes.iter().all(|name| self.is_taken(name));
        let computed = step.computes.iter().filter(|_| all_taken);
        taken.chain(computed).find_map(|name| self.ask_opinion(name))
    }
}

impl Next<'_> {
    /// What was judged before can be judged otherwise now, as with a reading that is taken again: all that rests on it is
    /// worked out anew.
    pub(in crate::run) fn take_opinion(&mut self, event: &PeopleEvent) {
        let PeopleEvent::Judged { result, person, wrong } = event else { return };
        let opinion = Opinion { person: person.clone(), wrong: wrong.clone(), stamp: self.stamp.clone() };
        let attempts = self.said().reading_mut(result);
        let is_first = attempts.opinions.is_empty() && attempts.taken.len() < 2;
        attempts.opinions.push(opinion);
        if !is_first {
            self.revise("judged again");
        }
    }
}
