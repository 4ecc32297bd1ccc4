//! What the names in a formula stand for, seen from one occurrence of a run.

use std::cell::RefCell;
use std::collections::BTreeMap;

use crate::formula::{EvalProblem, Value, World};
use crate::procedure::{Name, Passes};
use crate::quantity::{Num, Quantity, Unit};
use crate::run::answered::Answered;
use crate::run::passes::round::Round;
use crate::run::typed::without_mark;
use crate::run::view::View;
use crate::run::work::part::Part;
use crate::run::work::tree::OccurrenceId;

/// The names of a procedure as they stand, each at its nearest occurrence. A computed value is worked out once and kept.
pub struct Known<'run> {
    pub(super) view: View<'run>,
    computed: RefCell<BTreeMap<Name, Option<Value>>>,
}

impl<'run> Known<'run> {
    /// The names as they are seen from there.
    pub fn new(view: View<'run>) -> Self {
        Self { view, computed: RefCell::default() }
    }
}

impl<'run> View<'run> {
    /// The names of the procedure as they stand.
    pub fn known(self) -> Known<'run> {
        Known::new(self)
    }
}

impl World for Known<'_> {
    fn value_of(&self, name: &str) -> Option<Value> {
        let name = Name::from(name);
        self.reading(&name)
            .or_else(|| self.vehicle(&name))
            .or_else(|| self.computed(&name))
            .or_else(|| self.view.repeat_value(&name))
            .or_else(|| self.view.condition(&name).map(Value::Truth))
    }

    fn typed(&self, name: &str) -> Option<String> {
        let name = Name::from(name);
        let taken = self.view.latest(&name).map(|taken| &taken.value);
        let given = || self.view.state.vehicle.get(&name).map(|given| &given.value);
        let Answered::Quantity(entry) = taken.or_else(given)? else {
            return None;
        };
        let text = entry.with_unit();
        let reading = self.view.book.procedure.reading(&name);
        Some(reading.map_or(text.as_str(), |reading| without_mark(reading, &text)).to_owned())
    }

    fn passes_of(&self, name: &str, most: usize) -> Vec<Value> {
        let in_pass = |pass| self.view.inside(pass).known().value_of(name);
        let values = self.view.newest_passes(&Name::from(name), most, in_pass);
        values.unwrap_or_else(|| self.value_of(name).into_iter().take(most).collect())
    }
}

impl Known<'_> {
    fn reading(&self, name: &Name) -> Option<Value> {
        let taken = self.view.latest(name)?;
        if !self.view.is_taken(name) || self.view.is_blind(name) {
            return None;
        }
        as_value(&taken.value)
    }

    fn vehicle(&self, name: &Name) -> Option<Value> {
        let View { book, state, .. } = self.view;
        let declared = book.procedure.vehicle().get(name)?;
        if let Some(given) = state.vehicle.get(name) {
            return as_value(&given.value);
        }
        let entry = book.sheet.as_ref()?.value(name.as_str())?;
        match &declared.unit {
            Some(unit) => entry.quantity.as_ref()?.in_unit(unit).ok().map(Value::Quantity),
            None => Some(Value::Text(entry.text.clone())),
        }
    }

    /// Values rest on values, however deep: those beneath are worked out first, so that nothing here recurses.
    fn computed(&self, name: &Name) -> Option<Value> {
        self.view.book.procedure.value(name)?;
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
        let book = self.view.book;
        let is_open = |name: &Name| book.procedure.value(name).is_some() && !computed.contains_key(name);
        if is_open(value) {
            book.formula_names(value).into_iter().filter(is_open).collect()
        } else {
            Vec::new()
        }
    }

    /// A value is worked out where its step stands: seen from a pass, in that pass.
    fn work_out(&self, name: &Name) -> Option<Value> {
        if let Some(known) = self.computed.borrow().get(name) {
            return known.clone();
        }
        let value = self.view.book.procedure.value(name)?;
        let own = self.view.at_home(name);
        let worked = if own.within == self.view.within {
            value.formula.evaluate(self)
        } else {
            value.formula.evaluate(&own.known())
        };
        match worked {
            Ok(Value::Quantity(quantity)) => quantity.in_unit(&value.unit).ok().map(Value::Quantity),
            Ok(other) => Some(other),
            // What rests on an outcome without a number has none either, and says so.
            Err(EvalProblem::NoNumber { words, .. }) => Some(Value::Instead(words)),
            Err(_) => None,
        }
    }
}

impl View<'_> {
    /// The run seen from the nearest occurrence of the step at which a name gets its value.
    pub(crate) fn at_home(self, name: &Name) -> Self {
        let Some(part) = self.home(name).map(Part::Step) else { return self };
        // What stands in no repeat is the same from everywhere.
        if self.within == OccurrenceId::RUN && self.book.repeats_over(part).is_empty() {
            return self;
        }
        // A step that is not begun yet has no occurrence; what is around it has one.
        let mut parts = std::iter::successors(Some(part), |part| part.around(&self.book.procedure));
        parts.find_map(|part| self.find(part)).map_or(self, |at| self.inside(at))
    }

    /// The passes that count of the repeat that a name stands in, the oldest first; none outside repeats.
    pub(in crate::run) fn passes_seen(self, name: &Name) -> Option<Vec<OccurrenceId>> {
        self.newest_passes(name, usize::MAX, Some)
    }

    /// What is found in the passes that count of the repeat that a name stands in, as far as they are seen from here, with
    /// the present one: the newest so many, oldest first; none outside repeats. Older passes are not looked at.
    fn newest_passes<T>(
        self,
        name: &Name,
        most: usize,
        found: impl Fn(OccurrenceId) -> Option<T>,
    ) -> Option<Vec<T>> {
        let tree = &self.state.tree;
        let part = Part::Step(self.book.procedure.home(name)?);
        let repeat = *self.book.repeats_over(part).last()?;
        let repeated = self.book.part_of(repeat)?;
        let round = self.round(repeat)?;
        let own = tree.outwards(self.within).find(|at| tree.get(*at).part == repeated);
        let is_ended = |pass: &OccurrenceId| tree.get(*pass).end.is_some();
        let last = own.filter(is_ended).map_or(u32::MAX, |own| tree.get(own).turn);
        let is_present_seen = last == u32::MAX && round.over.is_none();
        let present = self.find(repeated).filter(|present| is_present_seen && !is_ended(present));
        let seen = round.counting.partition_point(|pass| tree.get(*pass).turn <= last);
        let counting = round.counting.get(..seen).unwrap_or_default().iter().rev().copied();
        let earlier = self.passes_of_earlier_rounds(repeat, &round);
        let all = present.into_iter().chain(counting).chain(earlier);
        let mut newest: Vec<T> = all.filter_map(found).take(most).collect();
        newest.reverse();
        Some(newest)
    }

    /// The passes that count of a repeat within a repeat, in the passes around it that came before the present one, the
    /// newest first: seen from outside, all of them belong together. From within a pass around it, none.
    fn passes_of_earlier_rounds(self, repeat: &Name, present: &Round) -> Vec<OccurrenceId> {
        let (tree, book) = (&self.state.tree, self.book);
        let Some(part) = book.part_of(repeat) else { return Vec::new() };
        let outer = book.repeats_over(part).into_iter().rev().find(|outer| *outer != repeat);
        let Some(outer) = outer.and_then(|outer| book.part_of(outer)) else { return Vec::new() };
        if tree.outwards(self.within).any(|at| tree.get(at).part == outer) {
            return Vec::new();
        }
        let rounds = self.rounds(repeat).into_iter().rev().filter(|round| round.within != present.within);
        let counts = |round: &Round| round.within.is_some_and(|within| self.counts(within));
        rounds.filter(counts).flat_map(|round| round.counting.into_iter().rev().collect::<Vec<_>>()).collect()
    }

    /// Whether a name is given its value in a repeat that has further passes.
    pub(super) fn is_in_a_repeat_that_goes_on(self, name: &Name) -> bool {
        let part = self.book.procedure.home(name).map(Part::Step);
        let innermost = part.and_then(|part| self.book.repeats_over(part).last().copied());
        let goes_on = |repeat| self.round(repeat).is_none_or(|round| round.over.is_none());
        innermost.is_some_and(goes_on)
    }

    /// The item of a pass, or its number: of so many passes, which of those that count it is.
    fn repeat_value(self, name: &Name) -> Option<Value> {
        let declared = self.book.procedure.repeat(name)?;
        let pass = self.pass(name)?;
        match declared.passes {
            Passes::Each(_) | Passes::EachOf(_) => pass.item.map(Value::Text),
            Passes::Times(_) => counted(pass.place),
            Passes::Until(_) => counted(pass.number),
        }
    }

    /// What a name was in each pass that counts of the repeat it stands in or is, in every occurrence of it; nothing
    /// outside repeats.
    pub fn over_passes(self, name: &Name) -> Vec<Value> {
        let is_repeat = self.book.procedure.repeat(name).is_some();
        let around = || {
            let part = Part::Step(self.book.procedure.home(name)?);
            self.book.repeats_over(part).last().copied()
        };
        let Some(repeat) = is_repeat.then_some(name).or_else(around) else {
            return Vec::new();
        };
        let passes = self.rounds(repeat).into_iter().flat_map(|round| round.counting);
        passes.filter_map(|pass| self.inside(pass).known().value_of(name.as_str())).collect()
    }
}

fn counted(number: usize) -> Option<Value> {
    let number = Num::from(i64::try_from(number).ok()?);
    Some(Value::Quantity(Quantity::new(number, Unit::one())))
}

fn as_value(answered: &Answered) -> Option<Value> {
    match answered {
        Answered::Quantity(entry) => Some(Value::Quantity(entry.typed.clone())),
        Answered::Choice(text) | Answered::Text(text) => Some(Value::Text(text.clone())),
        Answered::Instead(words) => Some(Value::Instead(words.clone())),
        Answered::Date(_) | Answered::List(_) | Answered::File(_) => None,
    }
}
