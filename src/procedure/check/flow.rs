//! The formulas of repeats, fasteners, critical acts and limits in force, proved; the checked things made of them.

use super::Names;
use super::formulas::{Formulas, Prover};
use super::limits::{self, Owner};
use crate::formula::{Type, Typed};
use crate::procedure::rules::formula_codes::{CONDITION_NOT_TRUTH, COUNT_WRONG, FORMULA_UNIT};
use crate::procedure::written::{
    Declarations, Entry, WrittenFasteners, WrittenGoal, WrittenPasses, WrittenPattern, WrittenPositions,
    WrittenRepeat, WrittenSetting, WrittenStage, WrittenTyped,
};
use crate::procedure::{
    Criterion, Critical, Fasteners, MOST_PASSES, MOST_PLACES, Name, Named, Passes, Pattern, Positions,
    Repeat, Stage, Typing, Watch,
};
use crate::quantity::{Dimension, Kind, Num};
use crate::source::{Diagnostic, Spanned};
use crate::table::Wording;

/// What a formula has to come to.
#[derive(Clone, Copy)]
enum Wanted {
    Truth,
    Number,
    Torque,
    Angle,
    Amount,
    /// A share, or an amount of what the target is.
    Within(Dimension),
}

impl Wanted {
    fn is(self, found: Type) -> bool {
        let measures = |dimension| found == Type::Quantity { dimension, kind: Kind::Difference };
        match self {
            Self::Truth => found == Type::Truth,
            Self::Number => found == Type::NUMBER,
            Self::Torque => measures(Dimension::TORQUE),
            Self::Angle => measures(Dimension::ANGLE),
            Self::Amount => matches!(found, Type::Quantity { .. }),
            Self::Within(dimension) => found == Type::NUMBER || measures(dimension),
        }
    }

    const fn words(self) -> &'static str {
        match self {
            Self::Truth => "something true or false, such as `drop < 100 rpm`",
            Self::Number => "a number without a unit, such as `3`",
            Self::Torque => "a torque, such as `40 N·m`",
            Self::Angle => "an angle, such as `90 deg`",
            Self::Amount => "a number with its unit, such as `72 mm`",
            Self::Within(Dimension::ANGLE) => "a share such as `4 %`, or an angle such as `5 deg`",
            Self::Within(_) => "a share such as `4 %`, or a torque such as `2 N·m`",
        }
    }
}

impl Prover<'_> {
    /// Proves all of them.
    pub(super) fn flow(&mut self, declarations: &Declarations) {
        for (name, repeat) in things(&declarations.repeats) {
            self.repeat(name, repeat);
        }
        for (name, group) in things(&declarations.fasteners) {
            self.fasteners(name, group);
        }
        for (name, critical) in things(&declarations.critical) {
            if let WrittenTyped::Value(wording) = &critical.typed {
                self.keep(name, "value", wording, Wanted::Amount);
            }
        }
        for (name, watch) in things(&declarations.watches) {
            let owner =
                limits::Owner { name: &name.value, unit: &watch.unit.value, declared: watch.unit.span };
            self.criterion(&owner, &watch.criterion);
        }
    }

    fn repeat(&mut self, name: &Spanned<Name>, repeat: &WrittenRepeat) {
        match &repeat.passes {
            WrittenPasses::Times(wording) => self.keep_count(name, "times", wording, MOST_PASSES),
            WrittenPasses::Until(wording) => self.keep_at_end(name, "until", wording),
            WrittenPasses::Each(_) | WrittenPasses::EachOf(_) => {}
        }
        if let Some(wording) = &repeat.at_most {
            self.keep_count(name, "at_most", wording, MOST_PASSES);
            self.more_than_at_most(name, wording);
        }
        if let Some(wording) = &repeat.resets {
            self.keep_at_end(name, "resets", wording);
        }
    }

    fn fasteners(&mut self, name: &Spanned<Name>, group: &WrittenFasteners) {
        if let WrittenPositions::Count(wording) = &group.positions {
            self.keep_count(name, "count", wording, MOST_PLACES);
        }
        for (index, stage) in group.stages.iter().enumerate() {
            self.stage(name, index, stage);
        }
    }

    fn stage(&mut self, name: &Spanned<Name>, index: usize, stage: &WrittenStage) {
        match &stage.goal {
            None => {}
            Some(WrittenGoal::Torque(setting)) => {
                self.setting(name, index, setting, Wanted::Torque, Dimension::TORQUE);
            }
            Some(WrittenGoal::Angle(setting)) => {
                self.setting(name, index, setting, Wanted::Angle, Dimension::ANGLE);
            }
            Some(WrittenGoal::Judged { unit, criterion }) => {
                let owner = Owner { name: &name.value, unit: &unit.value, declared: unit.span };
                let proved = self.proved(&owner, criterion);
                self.formulas.stages.extend(proved.map(|criterion| ((name.value.clone(), index), criterion)));
            }
        }
    }

    fn setting(
        &mut self,
        name: &Spanned<Name>,
        index: usize,
        setting: &WrittenSetting,
        wanted: Wanted,
        dimension: Dimension,
    ) {
        self.keep(name, &target_key(index), &setting.target, wanted);
        if let Some(wording) = &setting.within {
            self.keep(name, &within_key(index), wording, Wanted::Within(dimension));
        }
    }

    fn keep(&mut self, name: &Spanned<Name>, key: &str, wording: &Wording, wanted: Wanted) {
        if let Some(inputs) = self.kept(name, key, wording, wanted) {
            self.formulas.inputs.entry(name.value.clone()).or_default().extend(inputs);
        }
    }

    /// A number of things that are counted. What it comes to without a run must be one.
    fn keep_count(&mut self, name: &Spanned<Name>, key: &str, wording: &Wording, most: usize) {
        self.keep(name, key, wording, Wanted::Number);
        let Some(count) = self.constant_count(name, key) else {
            return;
        };
        let most = i64::try_from(most).unwrap_or(i64::MAX);
        if count.is_whole() && Num::from(1) <= count && count <= Num::from(most) {
            return;
        }
        let headline = format!("`{key}` of `{}` is no number that can be counted to", name.value);
        let label = format!("this is {}", count.shown());
        let diagnostic = Diagnostic::error(&COUNT_WRONG, headline).at(wording.spanned().span, label);
        self.diagnostics
            .push(diagnostic.help(format!("write a whole number from 1 to {most}, such as `{key} = 3`")));
    }

    /// So many passes cannot be made when the repeat ends before.
    fn more_than_at_most(&mut self, name: &Spanned<Name>, at_most: &Wording) {
        let (times, most) = (self.constant_count(name, "times"), self.constant_count(name, "at_most"));
        let can_be_done = |(times, most): (Num, Num)| times <= most || most < Num::from(1);
        if times.zip(most).is_none_or(can_be_done) {
            return;
        }
        let headline = format!("`{}` can never make as many passes as it wants", name.value);
        let diagnostic =
            Diagnostic::error(&COUNT_WRONG, headline).at(at_most.spanned().span, "less than `times`");
        self.diagnostics
            .push(diagnostic.help("passes that do not count are made too: give it more than `times`"));
    }

    /// What a formula of an owner comes to without a run, as a plain number.
    fn constant_count(&self, name: &Spanned<Name>, key: &str) -> Option<Num> {
        let formula = self.formulas.flow.get(&(name.value.clone(), key.to_owned()))?;
        limits::constant(formula).map(|count| count.base())
    }

    /// What a pass has to be over for: its inputs may be read in the pass.
    fn keep_at_end(&mut self, name: &Spanned<Name>, key: &str, wording: &Wording) {
        if let Some(inputs) = self.kept(name, key, wording, Wanted::Truth) {
            self.formulas.end_inputs.entry(name.value.clone()).or_default().extend(inputs);
        }
    }

    fn kept(
        &mut self,
        name: &Spanned<Name>,
        key: &str,
        wording: &Wording,
        wanted: Wanted,
    ) -> Option<Vec<Spanned<Name>>> {
        let (typed, inputs) = self.prove(wording, None)?;
        if !wanted.is(typed.result_type()) {
            let code = if matches!(wanted, Wanted::Truth) { &CONDITION_NOT_TRUTH } else { &FORMULA_UNIT };
            let headline = format!("a formula of `{}` does not come to what it should", name.value);
            let label = format!("this is {}", typed.result_type());
            let diagnostic = Diagnostic::error(code, headline).at(wording.spanned().span, label);
            self.diagnostics.push(diagnostic.help(format!("write {}", wanted.words())));
        }
        self.formulas.flow.insert((name.value.clone(), key.to_owned()), typed);
        Some(inputs)
    }
}

fn target_key(stage: usize) -> String {
    format!("stage {stage} target")
}

fn within_key(stage: usize) -> String {
    format!("stage {stage} within")
}

fn things<T>(entries: &[Entry<T>]) -> impl Iterator<Item = (&Spanned<Name>, &T)> {
    entries.iter().filter_map(|entry| Some((&entry.name, entry.thing.as_ref()?)))
}

fn texts(words: &[Spanned<String>]) -> Vec<String> {
    words.iter().map(|word| word.value.clone()).collect()
}

/// Makes the checked things of what was written and proved.
pub(super) struct Flow<'d> {
    pub(super) declarations: &'d Declarations,
    pub(super) formulas: &'d Formulas,
}

impl Flow<'_> {
    fn typed(&self, name: &Name, key: &str) -> Option<Typed> {
        self.formulas.flow.get(&(name.clone(), key.to_owned())).cloned()
    }

    pub(super) fn repeats(&self) -> Named<Repeat> {
        let repeat = |(name, written): (&Spanned<Name>, &WrittenRepeat)| {
            let name = name.value.clone();
            let passes = match &written.passes {
                WrittenPasses::Each(items) => Passes::Each(texts(items)),
                WrittenPasses::EachOf(reading) => Passes::EachOf(Name(reading.value.clone())),
                WrittenPasses::Times(_) => Passes::Times(self.typed(&name, "times")?),
                WrittenPasses::Until(_) => Passes::Until(self.typed(&name, "until")?),
            };
            let repeat = Repeat {
                what: written.what.clone(),
                passes,
                at_most: self.typed(&name, "at_most"),
                every: written.every.clone(),
                late: written.late.clone(),
                resets: self.typed(&name, "resets"),
                fails: written.fails.clone(),
                not_needed_after: written.not_needed_after.clone(),
            };
            Some((name, repeat))
        };
        things(&self.declarations.repeats).filter_map(repeat).collect()
    }

    pub(super) fn fasteners(&self) -> Named<Fasteners> {
        let group = |(name, written): (&Spanned<Name>, &WrittenFasteners)| {
            let name = name.value.clone();
            let positions = match &written.positions {
                WrittenPositions::Named(positions) => Positions::Named(texts(positions)),
                WrittenPositions::Count(_) => Positions::Count(self.typed(&name, "count")?),
            };
            let order = match &written.order {
                WrittenPattern::AsListed => Pattern::AsListed,
                WrittenPattern::Cross => Pattern::Cross,
                WrittenPattern::Given(order) => Pattern::Given(texts(order)),
            };
            let stage = |(index, stage): (usize, &WrittenStage)| Stage {
                what: stage.what.clone(),
                criterion: self.stage_criterion(&name, index),
                unit: match &stage.goal {
                    Some(WrittenGoal::Judged { unit, .. }) => Some(unit.value.clone()),
                    _ => None,
                },
                read: stage.read,
            };
            let stages = written.stages.iter().enumerate().map(stage).collect();
            let instrument = written.instrument.as_ref().map(|name| Name(name.value.clone()));
            Some((
                name.clone(),
                Fasteners { what: written.what.clone(), positions, order, stages, instrument },
            ))
        };
        things(&self.declarations.fasteners).filter_map(group).collect()
    }

    fn stage_criterion(&self, name: &Name, index: usize) -> Option<Criterion> {
        let target = self.typed(name, &target_key(index));
        let within = self.typed(name, &within_key(index));
        match (target, within) {
            (Some(target), Some(within)) => Some(Criterion::Target { target, within }),
            (Some(target), None) => Some(Criterion::Nominal(target)),
            (None, _) => self.formulas.stages.get(&(name.clone(), index)).cloned(),
        }
    }

    pub(super) fn critical(&self) -> Named<Critical> {
        let critical = |(name, written): (&Spanned<Name>, &crate::procedure::written::WrittenCritical)| {
            let typing = match &written.typed {
                WrittenTyped::Words(words) => Typing::Words(words.clone()),
                WrittenTyped::Value(_) => Typing::Value(self.typed(&name.value, "value")?),
            };
            Some((name.value.clone(), Critical { what: written.what.clone(), typing }))
        };
        things(&self.declarations.critical).filter_map(critical).collect()
    }

    pub(super) fn watches(&self) -> Named<Watch> {
        let watch = |(name, written): (&Spanned<Name>, &crate::procedure::written::WrittenWatch)| {
            let watch = Watch {
                what: written.what.clone(),
                unit: written.unit.value.clone(),
                readings: written.readings.iter().map(|name| Name(name.value.clone())).collect(),
                criterion: self.formulas.criteria.get(&name.value)?.clone(),
            };
            Some((name.value.clone(), watch))
        };
        things(&self.declarations.watches).filter_map(watch).collect()
    }
}

/// The kind of value that a repeat's name has: its item, or its number.
pub(super) fn kind_of_repeat(repeat: &WrittenRepeat) -> Type {
    match repeat.passes {
        WrittenPasses::Each(_) | WrittenPasses::EachOf(_) => Type::Text,
        WrittenPasses::Times(_) | WrittenPasses::Until(_) => Type::NUMBER,
    }
}

/// The items that a repeat goes through, where they are known.
pub(super) fn items_of_repeat(repeat: &WrittenRepeat) -> Vec<String> {
    match &repeat.passes {
        WrittenPasses::Each(items) => texts(items),
        _ => Vec::new(),
    }
}

/// Whether a name stands in the front of a step: it is about the whole step.
pub(super) fn belongs_in_front(name: &Name, names: &Names) -> bool {
    use crate::procedure::written::Table;
    matches!(
        names.table(name),
        Some(
            Table::Roles
                | Table::Hazards
                | Table::Conditions
                | Table::Repeats
                | Table::Alternatives
                | Table::Checks
                | Table::Witnesses
                | Table::Critical
                | Table::Watches
                | Table::StoppingPoints
                | Table::Steps
        )
    )
}
