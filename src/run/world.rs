//! What the names in a formula stand for at one moment of a run.

use std::cell::RefCell;
use std::collections::BTreeMap;

use super::book::Book;
use super::event::Answered;
use super::judge::Judgement;
use super::rounds::{Over, Pass, Rounds};
use super::state::{State, Taken};
use super::stopwatch::without_mark;
use super::view::View;
use crate::formula::{Value, World};
use crate::procedure::{Condition, Ground, Name, Passes};
use crate::quantity::{Num, Quantity, Unit};

/// The names of a procedure as they stand. A computed value is worked out once and kept.
pub struct Known<'run> {
    pub(super) book: &'run Book,
    state: &'run State,
    /// The pass in whose eyes it is: of which repeat, and which of its passes that have ended.
    pass: Option<(&'run Name, &'run Pass, usize)>,
    computed: RefCell<BTreeMap<Name, Option<Value>>>,
}

impl<'run> Known<'run> {
    /// The names as they stand after these facts.
    pub fn new(book: &'run Book, state: &'run State) -> Self {
        Self { book, state, pass: None, computed: RefCell::default() }
    }

    /// The names as they stood in a pass that has ended, by its place among all passes of the repeat.
    pub(super) fn in_pass(book: &'run Book, state: &'run State, repeat: &Name, place: usize) -> Self {
        let rounds = state.repeats.get_key_value(repeat);
        let pass = rounds.and_then(|(name, rounds)| Some((name, rounds.ended.get(place)?, place)));
        Self { book, state, pass, computed: RefCell::default() }
    }
}

impl World for Known<'_> {
    fn value_of(&self, name: &str) -> Option<Value> {
        let name = Name(name.to_owned());
        self.reading(&name)
            .or_else(|| self.vehicle(&name))
            .or_else(|| self.computed(&name))
            .or_else(|| self.repeat(&name))
            .or_else(|| self.condition(&name).map(Value::Truth))
    }

    fn typed(&self, name: &str) -> Option<String> {
        let name = Name(name.to_owned());
        let taken = self.taken(&name).map(|taken| &taken.value);
        let Answered::Quantity(entry) =
            taken.or_else(|| self.state.vehicle.get(&name).map(|given| &given.value))?
        else {
            return None;
        };
        let text = entry.with_unit();
        let reading = self.book.procedure.reading(&name);
        Some(reading.map_or(text.as_str(), |reading| without_mark(reading, &text)).to_owned())
    }

    fn passes_of(&self, name: &str) -> Vec<Value> {
        let name_of = Name(name.to_owned());
        let step = self.book.step_of(&name_of);
        let repeat = step.and_then(|step| self.book.repeats_around(step).into_iter().next_back());
        let rounds = repeat.and_then(|repeat| Some((repeat, self.state.repeats.get(repeat)?)));
        let Some((repeat, rounds)) = rounds else {
            return self.value_of(name).into_iter().collect();
        };
        let ended = self.passes_in_sight(repeat, rounds).into_iter();
        let earlier =
            ended.filter_map(|place| Self::in_pass(self.book, self.state, repeat, place).value_of(name));
        let goes_on = self.pass.is_none() && rounds.over.is_none();
        let present = goes_on.then(|| self.value_of(name)).flatten();
        earlier.chain(present).collect()
    }
}

impl Known<'_> {
    /// The passes of a repeat that count and lie in the pass in whose eyes it is, or in the present round.
    fn passes_in_sight(&self, repeat: &Name, rounds: &Rounds) -> Vec<usize> {
        let live = rounds.ended.len() - rounds.live().len();
        let all = rounds.ended.iter().enumerate().filter(|(_, pass)| pass.counts);
        let is_seen = |place: usize, pass: &Pass| match self.pass {
            None => place >= live,
            Some((own, _, last)) if own == repeat => place >= live.min(last) && place <= last,
            Some((_, outer, _)) => pass.began >= outer.began && pass.ended.seq <= outer.ended.seq,
        };
        all.filter(|(place, pass)| is_seen(*place, pass)).map(|(place, _)| place).collect()
    }

    /// The newest attempt at a reading in this pass.
    fn taken(&self, name: &Name) -> Option<&Taken> {
        let in_pass = self.pass.filter(|(repeat, _, _)| {
            let step = self.book.step_of(name);
            step.is_some_and(|step| self.book.repeats_around(step).contains(repeat))
        });
        match in_pass {
            Some((_, pass, _)) => {
                let began = if self.book.is_as_found(name) { pass.opened } else { pass.began };
                self.state.newest(name, |place| place > began && place <= pass.ended.seq)
            }
            None => self.state.latest(name),
        }
    }

    fn reading(&self, name: &Name) -> Option<Value> {
        let unseen = self.state.again.contains(name) || self.book.is_blind(self.state, name);
        if self.pass.is_none() && unseen {
            return None;
        }
        as_value(&self.taken(name)?.value)
    }

    /// The item of the pass, or its number.
    fn repeat(&self, name: &Name) -> Option<Value> {
        let declared = self.book.procedure.repeat(name)?;
        let empty = Rounds::default();
        let rounds = self.state.repeats.get(name).unwrap_or(&empty);
        let ended = self.pass.filter(|(repeat, _, _)| *repeat == name).map(|(_, pass, place)| (pass, place));
        match declared.passes {
            Passes::Each(_) | Passes::EachOf(_) => {
                let item = match (ended, rounds.over) {
                    (Some((pass, _)), _) => pass.item.clone(),
                    (None, Some(_)) => rounds.live().last()?.item.clone(),
                    (None, None) => self.book.item_now(self.state, name),
                };
                item.map(Value::Text)
            }
            Passes::Times(_) | Passes::Until(_) => {
                let earlier_rounds = rounds.ended.len() - rounds.live().len();
                let ended = ended.map(|(_, place)| place.saturating_sub(earlier_rounds));
                let number = match (&declared.passes, ended) {
                    (Passes::Times(_), Some(place)) => {
                        rounds.live().iter().take(place).filter(|pass| pass.counts).count() + 1
                    }
                    (_, Some(place)) => place + 1,
                    (Passes::Times(_), None) => rounds.place(),
                    (_, None) => rounds.number(),
                };
                let number = Num::from(i64::try_from(number).ok()?);
                Some(Value::Quantity(Quantity::new(number, Unit::one())))
            }
        }
    }

    /// Whether a condition holds; none where that is not known yet.
    pub(super) fn condition(&self, name: &Name) -> Option<bool> {
        let Condition { ground, .. } = self.book.procedure.condition(name)?;
        match ground {
            Ground::If(formula) => match formula.evaluate(self).ok()? {
                Value::Truth(holds) => Some(holds),
                _ => None,
            },
            Ground::Failed(result) => {
                let known = self.book.rests_on(result).iter().all(|reading| self.reading(reading).is_some());
                let judged = self.book.judge(self.state, result).filter(|_| known)?;
                let is_judged = !matches!(judged.judgement.own(), Judgement::NotYet(_));
                is_judged.then(|| !judged.judgement.own().lets_go_on())
            }
            Ground::Missed(wait) => self.is_missed(wait),
            Ground::GaveUp(repeat) => {
                let over = self.state.repeats.get(repeat)?.over?;
                Some(over != Over::Met)
            }
        }
    }

    /// A wait that was needed in time was not missed, nor one that no step needs any more. The steps that need it stand
    /// before all that rest on this: `check` sees to it.
    fn is_missed(&self, wait: &Name) -> Option<bool> {
        let steps = self.book.procedure.steps().iter();
        let mut needing = steps.filter(|step| step.needs.contains(wait));
        let missed = self.state.missed.get(wait);
        let own = needing.clone().next()?;
        if missed.is_some_and(|stamp| self.state.counts(own.id, stamp.seq)) {
            return Some(true);
        }
        let now = &self.state.last.as_ref()?.at;
        let view = View { book: self.book, state: self.state, now };
        needing.all(|step| view.is_settled(step)).then_some(false)
    }

    /// Whether a name is given its value in a repeat that has further passes.
    pub(super) fn is_in_a_repeat_that_goes_on(&self, name: &Name) -> bool {
        let step = self.book.step_of(name);
        let innermost = step.and_then(|step| self.book.repeats_around(step).into_iter().next_back());
        let goes_on = |repeat| self.state.repeats.get(repeat).is_none_or(|rounds| rounds.over.is_none());
        innermost.is_some_and(goes_on)
    }

    fn vehicle(&self, name: &Name) -> Option<Value> {
        let declared = self.book.procedure.vehicle().get(name)?;
        if let Some(given) = self.state.vehicle.get(name) {
            return as_value(&given.value);
        }
        let entry = self.book.sheet.as_ref()?.value(name.as_str())?;
        match &declared.unit {
            Some(unit) => entry.quantity.as_ref()?.in_unit(unit).ok().map(Value::Quantity),
            None => Some(Value::Text(entry.text.clone())),
        }
    }

    /// Values rest on values, however deep: those beneath are worked out first, so that nothing here recurses.
    fn computed(&self, name: &Name) -> Option<Value> {
        self.book.procedure.value(name)?;
        let mut waiting = vec![name.clone()];
        while let Some(value) = waiting.last().cloned() {
            let beneath = self.not_computed_beneath(&value);
            if beneath.is_empty() {
                let result = self.work_out(&value);
                self.computed.borrow_mut().insert(value, result);
                waiting.pop();
            } else {
                waiting.extend(beneath);
            }
        }
        self.computed.borrow().get(name).cloned().flatten()
    }

    fn not_computed_beneath(&self, value: &Name) -> Vec<Name> {
        let computed = self.computed.borrow();
        let is_open = |name: &Name| self.book.procedure.value(name).is_some() && !computed.contains_key(name);
        if is_open(value) {
            self.book.formula_names(value).into_iter().filter(is_open).collect()
        } else {
            Vec::new()
        }
    }

    fn work_out(&self, name: &Name) -> Option<Value> {
        if let Some(known) = self.computed.borrow().get(name) {
            return known.clone();
        }
        let value = self.book.procedure.value(name)?;
        match value.formula.evaluate(self).ok()? {
            Value::Quantity(quantity) => quantity.in_unit(&value.unit).ok().map(Value::Quantity),
            other => Some(other),
        }
    }
}

impl View<'_> {
    /// What a name was in each pass that counts of the repeat it stands in or is, in every round; nothing outside
    /// repeats.
    pub fn over_passes(self, name: &Name) -> Vec<Value> {
        let is_repeat = self.book.procedure.repeat(name).is_some();
        let around = || self.book.repeats_around(self.book.step_of(name)?).into_iter().next_back();
        let Some(repeat) = is_repeat.then_some(name).or_else(around) else {
            return Vec::new();
        };
        let ended = self.rounds(repeat).map(|rounds| rounds.ended.as_slice()).unwrap_or_default().iter();
        let counted = ended.enumerate().filter(|(_, pass)| pass.counts);
        let known = |place| Known::in_pass(self.book, self.state, repeat, place);
        counted.filter_map(|(place, _)| known(place).value_of(name.as_str())).collect()
    }
}

fn as_value(answered: &Answered) -> Option<Value> {
    match answered {
        Answered::Quantity(entry) => Some(Value::Quantity(entry.typed.clone())),
        Answered::Choice(text) | Answered::Text(text) => Some(Value::Text(text.clone())),
        Answered::Date(_) | Answered::List(_) | Answered::File(_) => None,
    }
}
