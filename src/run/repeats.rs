//! Passes of repeats. A pass is a window of entries: what was entered before it began counts no more for its steps,
//! and is kept.

use super::book::Book;
use super::counting::{count, holds, whole};
use super::event::Stamp;
use super::rounds::{Begins, Over, Pass, PassEnd, Rounds};
use super::state::State;
use super::view::View;
use super::world::Known;
use crate::procedure::{Ground, Name, Passes, Repeat, SectionId, Step, StepId};

/// What is done anew: a section, or a step with its parts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Scope {
    /// A section.
    Section(SectionId),
    /// A step with its parts.
    Step(StepId),
}

/// Something that was begun anew by a person's word.
#[derive(Clone, Debug, PartialEq)]
pub struct Moved {
    /// What.
    pub scope: Scope,
    /// Why.
    pub reason: String,
    /// When.
    pub stamp: Stamp,
}

impl Book {
    /// What a repeat makes be done more than once.
    pub fn scope(&self, repeat: &Name) -> Option<Scope> {
        let sections = self.procedure.sections();
        let section = sections.iter().position(|section| section.repeat.as_ref() == Some(repeat));
        let step = || self.procedure.steps().iter().find(|step| step.repeat.as_ref() == Some(repeat));
        section.map(|section| Scope::Section(SectionId(section))).or_else(|| Some(Scope::Step(step()?.id)))
    }

    /// The section of a scope.
    pub fn section_of(&self, scope: Scope) -> Option<SectionId> {
        match scope {
            Scope::Section(section) => Some(section),
            Scope::Step(step) => self.procedure.step(step).map(|step| step.section),
        }
    }

    /// Whether a step belongs to a scope.
    pub fn is_in(&self, scope: Scope, step: StepId) -> bool {
        match scope {
            Scope::Section(section) => self.procedure.step(step).is_some_and(|step| step.section == section),
            Scope::Step(outer) => self.is_within(step, outer),
        }
    }

    /// The repeats that a step stands in, the outermost first.
    pub fn repeats_around(&self, step: StepId) -> Vec<&Name> {
        let mut around = Vec::new();
        let mut at = self.procedure.step(step);
        let section = at.and_then(|step| self.procedure.section(step.section));
        while let Some(step) = at {
            around.extend(&step.repeat);
            at = step.parent.and_then(|parent| self.procedure.step(parent));
        }
        around.extend(section.and_then(|section| section.repeat.as_ref()));
        around.reverse();
        around
    }

    /// The step at which a name gets its value: a reading is taken, a value computed.
    pub fn step_of(&self, name: &Name) -> Option<StepId> {
        let computes = || self.procedure.steps().iter().find(|step| step.computes.contains(name));
        self.procedure.taken_at(name).or_else(|| computes().map(|step| step.id))
    }

    /// Whether the procedure has a path of its own for a missed wait.
    pub fn has_path_for_missed(&self, wait: &Name) -> bool {
        let mut conditions = self.procedure.conditions().iter();
        conditions.any(|(_, condition)| matches!(&condition.ground, Ground::Missed(name) if name == wait))
    }

    /// Whether the procedure has a path of its own for a repeat that was given up.
    pub fn has_path_for_given_up(&self, repeat: &Name) -> bool {
        let mut conditions = self.procedure.conditions().iter();
        conditions.any(|(_, condition)| matches!(&condition.ground, Ground::GaveUp(name) if name == repeat))
    }

    /// The item of the present pass, where the repeat goes through a list.
    pub fn item_now(&self, state: &State, repeat: &Name) -> Option<String> {
        match state.repeats.get(repeat) {
            Some(rounds) => rounds.item.clone(),
            None => self.items(state, repeat)?.into_iter().next(),
        }
    }

    /// The list that a repeat goes through.
    pub fn items(&self, state: &State, repeat: &Name) -> Option<Vec<String>> {
        match &self.procedure.repeat(repeat)?.passes {
            Passes::Each(items) => Some(items.clone()),
            Passes::EachOf(reading) => match &state.latest(reading)?.value {
                super::Answered::List(items) => Some(items.clone()),
                _ => None,
            },
            Passes::Times(_) | Passes::Until(_) => None,
        }
    }

    /// The items that no pass of this round has been made for: also after the list was corrected.
    fn left(&self, state: &State, repeat: &Name, rounds: &Rounds) -> Option<Vec<String>> {
        let mut left = self.items(state, repeat)?;
        for pass in rounds.live().iter().filter(|pass| pass.counts) {
            if let Some(made) = left.iter().position(|item| pass.item.as_ref() == Some(item)) {
                left.remove(made);
            }
        }
        Some(left)
    }

    /// How many passes must count, where that is known.
    pub fn wanted(&self, state: &State, repeat: &Name) -> Option<usize> {
        match &self.procedure.repeat(repeat)?.passes {
            Passes::Times(times) => whole(times, &Known::new(self, state)),
            _ => self.items(state, repeat).map(|items| items.len()),
        }
    }

    /// Works out, outermost first, which passes belong together, whether a repeat is over, and from where on facts
    /// count.
    pub(super) fn refresh(&self, state: &mut State) {
        if state.repeats.is_empty() && state.moved.is_empty() && self.procedure.repeats().is_empty() {
            return;
        }
        state.begins = Begins::default();
        let mut order: Vec<&Name> =
            self.procedure.sections().iter().filter_map(|section| section.repeat.as_ref()).collect();
        order.extend(self.procedure.steps().iter().filter_map(|step| step.repeat.as_ref()));
        if order.is_empty() {
            self.begin_steps(state);
        }
        for repeat in order {
            self.refresh_one(state, repeat);
        }
    }

    fn refresh_one(&self, state: &mut State, name: &Name) {
        let (Some(repeat), Some(scope)) = (self.procedure.repeat(name), self.scope(name)) else {
            return;
        };
        let floor = self.floor(state, name, scope);
        let restarted = Self::moved(state, |moved| moved == scope);
        let mut rounds = state.repeats.remove(name).unwrap_or_default();
        rounds.live = rounds.ended.iter().rev().take_while(|pass| pass.began >= floor).count();
        // While it is worked out whether the repeat is over, its passes have to be there for formulas to speak of.
        state.repeats.insert(name.clone(), rounds.clone());
        count(self, state, repeat, name, &mut rounds);
        state.repeats.insert(name.clone(), rounds.clone());
        rounds.over = self.over(state, repeat, name, &rounds);
        let last = rounds.live().last().map(|pass| (pass.began, pass.ended.seq));
        let begin = match (last, rounds.over) {
            (Some((began, _)), Some(_)) => began,
            (Some((_, ended)), None) => ended,
            (None, _) => floor,
        };
        let same_pass = rounds.opened == begin;
        let left = self.left(state, name, &rounds).unwrap_or_default();
        let present = rounds.item.take().filter(|item| same_pass && left.contains(item));
        rounds.item = present.or_else(|| left.into_iter().next());
        rounds.opened = begin;
        rounds.begin = begin.max(restarted);
        state.repeats.insert(name.clone(), rounds);
        self.begin_steps(state);
    }

    /// The entry after which the first pass of a round can begin.
    fn floor(&self, state: &State, repeat: &Name, scope: Scope) -> u64 {
        let step = match scope {
            Scope::Section(_) => return 0,
            Scope::Step(step) => step,
        };
        let around = self.repeats_around(step).into_iter().filter(|around| *around != repeat);
        let outer = around.filter_map(|around| state.repeats.get(around)).map(|rounds| rounds.begin).max();
        let moved = Self::moved(state, |moved| moved != scope && self.is_in(moved, step));
        outer.unwrap_or_default().max(moved)
    }

    /// The last entry at which one of these scopes was begun anew.
    fn moved(state: &State, is: impl Fn(Scope) -> bool) -> u64 {
        let moved = state.moved.iter().filter(|moved| is(moved.scope));
        moved.map(|moved| moved.stamp.seq).max().unwrap_or_default()
    }

    fn begin_steps(&self, state: &mut State) {
        let mut begins = Begins::default();
        for step in self.procedure.steps() {
            let around = self.repeats_around(step.id).into_iter();
            let repeats =
                around.filter_map(|around| state.repeats.get(around)).map(|rounds| rounds.begin).max();
            let moved = Self::moved(state, |scope| self.is_in(scope, step.id));
            let begin = repeats.unwrap_or_default().max(moved);
            if begin > 0 {
                begins.steps.insert(step.id, begin);
                let hold = step.hold.as_ref().and_then(|hold| self.procedure.hold(hold));
                let of_hold = hold.map(|hold| hold.readings.as_slice()).unwrap_or_default();
                let opened = self.opened(state, step.id);
                let begin = |name| if self.is_as_found(name) { opened } else { begin };
                let names = step.takes.iter().chain(of_hold);
                begins.names.extend(names.map(|name| (name.clone(), begin(name))));
            }
        }
        state.begins = begins;
    }

    fn over(&self, state: &State, repeat: &Repeat, name: &Name, rounds: &Rounds) -> Option<Over> {
        let live = rounds.live();
        if matches!(live.last(), Some(Pass { end: PassEnd::GivenUp(_), .. })) {
            return Some(Over::GivenUp);
        }
        let met = match &repeat.passes {
            Passes::Until(until) => {
                let last = live.iter().rposition(|pass| pass.counts);
                let place = last.map(|last| rounds.ended.len() - live.len() + last);
                place.is_some_and(|place| holds(until, &Known::in_pass(self, state, name, place)))
            }
            Passes::Times(_) => self.wanted(state, name).is_some_and(|wanted| rounds.counted() >= wanted),
            Passes::Each(_) | Passes::EachOf(_) => {
                self.left(state, name, rounds).is_some_and(|left| left.is_empty())
            }
        };
        if met {
            return Some(Over::Met);
        }
        let most = whole(repeat.at_most.as_ref()?, &Known::new(self, state))? + rounds.extended;
        let made = match repeat.passes {
            Passes::Until(_) => rounds.counted(),
            _ => live.len(),
        };
        (made >= most).then_some(Over::Exhausted)
    }
}

impl<'run> View<'run> {
    /// The passes of a repeat.
    pub fn rounds(self, repeat: &Name) -> Option<&'run Rounds> {
        self.state.repeats.get(repeat)
    }

    /// Whether a repeat makes no further pass, and nobody has to decide about it.
    pub fn is_over(self, repeat: &Name) -> bool {
        self.rounds(repeat).is_some_and(|rounds| match rounds.over {
            Some(Over::Met | Over::GivenUp) => true,
            Some(Over::Exhausted) => rounds.accepted || self.book.has_path_for_given_up(repeat),
            None => false,
        })
    }

    /// Why the steps of a repeat are not done: it was given up, or there is nothing to repeat.
    pub(super) fn not_repeated(self, step: &Step) -> Option<String> {
        let around = self.book.repeats_around(step.id);
        around.into_iter().find_map(|repeat| {
            let rounds = self.rounds(repeat)?;
            match (rounds.over, rounds.live().last()) {
                (Some(Over::GivenUp), Some(Pass { end: PassEnd::GivenUp(reason), .. })) => {
                    Some(format!("given up: {reason}"))
                }
                (Some(Over::Met), None) => Some("nothing to repeat".to_owned()),
                _ => None,
            }
        })
    }

    /// Which pass the work of a step is in, in words: `pass 2 of 3 (left)`; none outside repeats.
    pub fn pass_words(self, step: StepId) -> Option<String> {
        let around = self.book.repeats_around(step);
        let words: Vec<String> = around.into_iter().filter_map(|repeat| self.pass_number(repeat)).collect();
        (!words.is_empty()).then(|| words.join(", "))
    }

    /// Which pass of a repeat it is, in words: `pass 2 of 3 (left)`; after a pass that does not count, `pass 3 (left, 2 of
    /// 3)`.
    pub fn pass_number(self, repeat: &Name) -> Option<String> {
        let rounds = self.rounds(repeat)?;
        let (number, place) = (rounds.number(), rounds.place());
        let of = |place: usize| {
            let wanted = self.book.wanted(self.state, repeat).filter(|wanted| place <= *wanted);
            wanted.map(|wanted| format!("{place} of {wanted}"))
        };
        let item = match rounds.over {
            Some(_) => rounds.live().last().and_then(|pass| pass.item.clone()),
            None => self.book.item_now(self.state, repeat),
        };
        let (number, more) = if number == place {
            (of(place).unwrap_or_else(|| number.to_string()), item)
        } else {
            let more: Vec<String> = item.into_iter().chain(of(place)).collect();
            (number.to_string(), (!more.is_empty()).then(|| more.join(", ")))
        };
        let more = more.map(|more| format!(" ({more})")).unwrap_or_default();
        Some(format!("pass {number}{more}"))
    }
}
