//! The formulas of repeats, fasteners, critical acts and limits in force, proved.

use super::formulas::{Formulas, Prover};
use super::limits::{self, Owner};
use crate::formula::{Type, Typed};
use crate::procedure::rules::formula_codes::{CONDITION_NOT_TRUTH, COUNT_WRONG, FORMULA_UNIT};
use crate::procedure::written::{
    WrittenCriterion, WrittenFasteners, WrittenGoal, WrittenPasses, WrittenPositions, WrittenRepeat,
    WrittenSetting, WrittenStage, texts,
};
use crate::procedure::{Criterion, Declarations, MOST_PASSES, MOST_PLACES, Name};
use crate::quantity::{Dimension, Kind, Num, Unit};
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
    /// What a person types before a critical act.
    pub(in crate::procedure) fn an_amount(&mut self, name: &Spanned<Name>, key: &str, wording: &Wording) {
        self.keep(name, key, wording, Wanted::Amount);
    }

    /// Limits in a unit of their own.
    pub(in crate::procedure) fn judged(
        &mut self,
        name: &Name,
        unit: &Spanned<Unit>,
        criterion: &WrittenCriterion,
    ) {
        self.criterion(&Owner { name, unit: &unit.value, declared: unit.span }, criterion);
    }

    pub(in crate::procedure) fn repeat(&mut self, name: &Spanned<Name>, repeat: &WrittenRepeat) {
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

    pub(in crate::procedure) fn fasteners(&mut self, name: &Spanned<Name>, group: &WrittenFasteners) {
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

/// What the checked things are made of: what was written, and its formulas, proved.
pub(in crate::procedure) struct Proved<'d> {
    pub(in crate::procedure) declarations: &'d Declarations,
    pub(in crate::procedure) formulas: &'d Formulas,
}

impl Proved<'_> {
    /// The formula under that key of an entry.
    pub(in crate::procedure) fn typed(&self, name: &Name, key: &str) -> Option<Typed> {
        self.formulas.flow.get(&(name.clone(), key.to_owned())).cloned()
    }

    /// What a stage of tightening is brought to.
    pub(in crate::procedure) fn stage_criterion(&self, name: &Name, index: usize) -> Option<Criterion> {
        let target = self.typed(name, &target_key(index));
        let within = self.typed(name, &within_key(index));
        match (target, within) {
            (Some(target), Some(within)) => Some(Criterion::Target { target, within }),
            (Some(target), None) => Some(Criterion::Nominal(target)),
            (None, _) => self.formulas.stages.get(&(name.clone(), index)).cloned(),
        }
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
