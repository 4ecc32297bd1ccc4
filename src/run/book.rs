//! What a run goes by: the pinned procedure and vehicle sheet.

use std::collections::BTreeSet;
use std::sync::{Arc, OnceLock};

use crate::procedure::{
    CheckedProcedure, Condition, Criterion, Ground, Name, Passes, Positions, SectionId, Step, StepId, Typing,
};
use crate::quantity::Unit;
use crate::run::work::part::Part;
use crate::run::work::steady::Steady;
use crate::vehicle::Sheet;

/// The pinned procedure and vehicle sheet of a run.
#[derive(Clone, Debug)]
pub struct Book {
    /// The procedure.
    pub procedure: CheckedProcedure,
    /// The vehicle sheet; without one, every vehicle value is asked for.
    pub sheet: Option<Sheet>,
    /// Worked out where it is first asked for.
    steady: OnceLock<Arc<Steady>>,
}

impl Book {
    /// What a run with these goes by.
    pub const fn new(procedure: CheckedProcedure, sheet: Option<Sheet>) -> Self {
        Self { procedure, sheet, steady: OnceLock::new() }
    }

    /// Which steps rest on which; worked out once.
    pub(super) fn steady(&self, work_out: impl FnOnce() -> Steady) -> Arc<Steady> {
        Arc::clone(self.steady.get_or_init(|| Arc::new(work_out())))
    }

    /// The unit in which an odometer is read where none is typed: the sheet's, else kilometres.
    pub fn odometer_unit(&self) -> Unit {
        let kilometre = || Unit::parse("km").unwrap_or_else(|_| Unit::one());
        self.sheet.as_ref().map_or_else(kilometre, |sheet| sheet.odometer_unit().clone())
    }

    /// The names that the criterion of a reading or a value refers to, and all else that it is judged by.
    pub fn criterion_names(&self, name: &Name) -> Vec<Name> {
        let own = self.procedure.criterion(name).map(names_in).unwrap_or_default();
        own.into_iter().chain(self.watched_by(name)).collect()
    }

    /// The names that a value's formula refers to; none for anything else.
    pub fn formula_names(&self, name: &Name) -> Vec<Name> {
        self.procedure.value(name).map(|value| names_of(&value.formula)).unwrap_or_default()
    }

    /// The readings that a result or its limits rest on, through values, itself included if it is a reading.
    pub fn rests_on(&self, name: &Name) -> BTreeSet<Name> {
        self.readings_behind(name, |book, name| {
            let mut names = book.formula_names(name);
            names.extend(book.criterion_names(name));
            names
        })
    }

    /// The readings that are taken again when a result fails: a reading alone, or all that a value and its limits rest on.
    pub fn behind(&self, name: &Name) -> BTreeSet<Name> {
        match self.procedure.reading(name) {
            Some(_) => BTreeSet::from([name.clone()]),
            None => self.rests_on(name),
        }
    }

    /// The readings that a result is computed from, through values, itself included if it is a reading.
    fn computed_from(&self, name: &Name) -> BTreeSet<Name> {
        self.readings_behind(name, Self::formula_names)
    }

    /// The readings that a step cannot do without: behind its values, its limits and its
    /// conditions, and how often it is done, its fasteners and its critical acts.
    pub fn step_needs(&self, step: &Step) -> BTreeSet<Name> {
        let section = self.procedure.section(step.section);
        let hold = step.hold.as_ref().and_then(|hold| self.procedure.hold(hold));
        let hold_readings = hold.map(|hold| hold.readings.as_slice()).unwrap_or_default();
        let results = step.takes.iter().chain(&step.computes).chain(hold_readings);
        let conditions = step.conditions.iter().chain(section.map_or(&[][..], |section| &section.conditions));
        results
            .flat_map(|name| self.rests_on(name))
            .chain(conditions.flat_map(|name| self.condition_readings(name)))
            .chain(self.work_names(step).iter().flat_map(|name| self.rests_on(name)))
            .collect()
    }

    /// The names that how often a step is done, its fasteners, its critical acts and what falls due after it refer to.
    fn work_names(&self, step: &Step) -> Vec<Name> {
        let repeats = self.repeats_over(Part::Step(step.id)).into_iter();
        let repeats = repeats.filter_map(|repeat| self.procedure.repeat(repeat));
        let passes = repeats.flat_map(|repeat| match &repeat.passes {
            Passes::EachOf(list) => vec![list.clone()],
            Passes::Times(times) => names_of(times),
            Passes::Each(_) | Passes::Until(_) => Vec::new(),
        });
        let groups =
            self.procedure.fasteners_at(step).filter_map(|group| self.procedure.fastener_group(group));
        let places = groups.flat_map(|group| match &group.positions {
            Positions::Count(count) => names_of(count),
            Positions::Named(_) => Vec::new(),
        });
        let acts = step.critical.iter().filter_map(|act| self.procedure.critical_act(act));
        let typed = acts.flat_map(|act| match &act.typing {
            Typing::Value(amount) => names_of(amount),
            Typing::Words(_) => Vec::new(),
        });
        let dues = step.dues.iter().filter_map(|due| self.procedure.due(due));
        let dues = dues.flat_map(|due| due.formulas().flat_map(names_of).collect::<Vec<_>>());
        passes.chain(places).chain(typed).chain(dues).collect()
    }

    /// The conditions that a step stands under: its section's, its own, those of the steps it is a part of.
    pub(super) fn conditions_over<'b>(&'b self, step: &'b Step) -> impl Iterator<Item = &'b Name> {
        let section = self.procedure.section(step.section).into_iter();
        let over = std::iter::successors(Some(step), |step| self.procedure.step(step.parent?));
        section.flat_map(|section| &section.conditions).chain(over.flat_map(|step| &step.conditions))
    }

    /// What these conditions rest on.
    pub(super) fn grounds_over(&self, step: &Step) -> Vec<&Ground> {
        let conditions = self.conditions_over(step).filter_map(|name| self.procedure.condition(name));
        conditions.map(|condition| &condition.ground).collect()
    }

    /// The number of a section, as the numbers of its steps begin.
    pub fn section_number(&self, section: SectionId) -> String {
        let first = self.procedure.steps_in(section).next();
        let number = first.and_then(|step| step.number.split('.').next());
        number.map_or_else(|| (section.0 + 1).to_string(), str::to_owned)
    }

    /// The step that is a hold point.
    pub fn step_of_hold(&self, hold: &Name) -> Option<&Step> {
        self.procedure.step(*self.procedure.held_at(hold).first()?)
    }

    /// Whether the procedure has a path of its own for a result that fails. What a hold point reads has none: it passes,
    /// or the hold point stays shut.
    pub fn has_path_for_failed(&self, result: &Name) -> bool {
        let mut conditions = self.procedure.conditions().iter();
        let held = || self.procedure.holds().iter().any(|(_, hold)| hold.takes(result));
        conditions.any(|(_, condition)| matches!(&condition.ground, Ground::Failed(name) if name == result))
            && !held()
    }

    /// Everything whose correction can change what is thought of a result: readings, and values of the vehicle.
    pub(crate) fn moved_by(&self, name: &Name) -> BTreeSet<Name> {
        let mut seen = self.beneath([name.clone()], |book, name| {
            book.formula_names(name).into_iter().chain(book.criterion_names(name)).collect()
        });
        seen.retain(|name| self.procedure.reading(name).is_some() || self.procedure.vehicle().contains(name));
        seen
    }

    /// The readings by which it is decided which passes of a repeat count.
    pub(crate) fn counts_by(&self, repeat: &Name) -> BTreeSet<Name> {
        let resets = self.procedure.repeat(repeat).and_then(|repeat| repeat.resets.as_ref());
        let mut seen = self.beneath(resets.map(names_of).unwrap_or_default(), Self::formula_names);
        seen.retain(|name| self.procedure.reading(name).is_some());
        seen
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

    /// Whether it is said what follows once a repeat is given up: steps for that case, why those after it do not need it,
    /// or no steps at all. Else work would go on as if the repeat had come to its end.
    pub fn is_giving_up_foreseen(&self, repeat: &Name) -> bool {
        let declared = self.procedure.repeat(repeat);
        let is_foreseen = declared.is_some_and(|declared| declared.not_needed_after.is_some());
        is_foreseen || self.has_path_for_given_up(repeat) || !self.has_steps_after(repeat)
    }

    fn has_steps_after(&self, repeat: &Name) -> bool {
        let Some(part) = self.part_of(repeat) else { return false };
        let is_part = |step: &&Step| part.holds(&self.procedure, step.id);
        let last = self.procedure.steps().iter().rposition(|step| is_part(&step));
        last.is_some_and(|last| last + 1 < self.procedure.steps().len())
    }

    /// Whether a step is part of another, however deep, or is it.
    pub fn is_within(&self, step: StepId, outer: StepId) -> bool {
        let mut current = Some(step);
        while let Some(id) = current {
            if id == outer {
                return true;
            }
            current = self.procedure.step(id).and_then(|step| step.parent);
        }
        false
    }

    fn condition_readings(&self, condition: &Name) -> BTreeSet<Name> {
        let formula = self.procedure.condition(condition).and_then(Condition::formula);
        let names = formula.map(names_of).unwrap_or_default();
        names.iter().flat_map(|name| self.computed_from(name)).collect()
    }

    fn readings_behind(&self, name: &Name, next: impl Fn(&Self, &Name) -> Vec<Name>) -> BTreeSet<Name> {
        let mut seen = self.beneath([name.clone()], next);
        seen.retain(|name| self.procedure.reading(name).is_some());
        seen
    }

    /// These names and all that they refer to, however deep.
    pub(super) fn beneath(
        &self,
        names: impl IntoIterator<Item = Name>,
        next: impl Fn(&Self, &Name) -> Vec<Name>,
    ) -> BTreeSet<Name> {
        let mut seen = BTreeSet::new();
        let mut waiting: Vec<Name> = names.into_iter().collect();
        while let Some(name) = waiting.pop() {
            if seen.insert(name.clone()) {
                waiting.extend(next(self, &name));
            }
        }
        seen
    }
}

pub(super) fn names_in(criterion: &Criterion) -> Vec<Name> {
    match criterion {
        Criterion::Limits { lower, upper } => {
            lower.iter().chain(upper).flat_map(|bound| names_of(&bound.formula)).collect()
        }
        Criterion::Target { target, within } => {
            names_of(target).into_iter().chain(names_of(within)).collect()
        }
        Criterion::Nominal(nominal) => names_of(nominal),
        Criterion::InformationOnly => Vec::new(),
    }
}

pub(super) fn names_of(formula: &crate::formula::Typed) -> Vec<Name> {
    formula.names().iter().map(|name| Name::from(&name.value)).collect()
}
