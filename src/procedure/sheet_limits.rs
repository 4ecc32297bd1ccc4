//! What a procedure's limits, ceilings, torques and counts come to with a vehicle's sheet.

use std::cmp::Ordering;

use super::{
    Beforehand, Bound, CheckedProcedure, Criterion, MOST_PASSES, MOST_PLACES, Name, Passes, Positions,
    Reading, Stage,
};
use crate::formula::{EvalProblem, Typed, Value};
use crate::quantity::{Limits, Num, Quantity};
use crate::source::{Code, Diagnostic};
use crate::vehicle::Sheet;

/// Values that make no sense in the procedure.
pub static SHEET_LIMITS: Code = Code {
    name: "sheet-limits",
    summary: "with the values of this vehicle a limit of the procedure makes no sense",
    teaching: "\
Limits, ceilings, torques and numbers of passes can rest on values of the vehicle. With a sheet beside the
procedure they are worked out before the job, so that a digit typed wrongly is found at the desk and not under the
vehicle: a lower limit above the upper one, a good value beyond what must never be passed, a torque of nothing,
half a bolt.

Wrong: `pressure_min` with `value = \"400 kPa\"` beside `pressure_max` with `value = \"40 kPa\"`

Right: both values as the source has them
",
};

/// Says which formulas that rest on the sheet alone make no sense with it. Every span points into the sheet's text.
pub(super) fn limits(procedure: &CheckedProcedure, sheet: &Sheet) -> Vec<Diagnostic> {
    let beside = Beside { procedure, known: Beforehand::new(procedure, Some(sheet)) };
    let readings = procedure.readings().iter().flat_map(|(name, reading)| beside.reading(name, reading));
    let values = procedure.values().iter().flat_map(|(name, value)| beside.criterion(name, &value.criterion));
    let watches =
        procedure.watches().iter().flat_map(|(name, watch)| beside.criterion(name, &watch.criterion));
    let found = readings.chain(values).chain(watches);
    found.chain(beside.repeats()).chain(beside.fasteners()).chain(beside.supplies()).collect()
}

struct Beside<'a> {
    procedure: &'a CheckedProcedure,
    known: Beforehand<'a>,
}

impl Beside<'_> {
    /// The amount that a formula comes to; `None` where it needs more than the sheet, or says nothing of the vehicle.
    fn amount(&self, formula: &Typed) -> Option<Quantity> {
        match self.known.evaluate(formula).ok()? {
            Value::Quantity(quantity) => Some(quantity),
            Value::Truth(_) | Value::Text(_) | Value::Instead(_) => None,
        }
    }

    /// What is wrong, at the values of the sheet that it rests on; nothing where it rests on none.
    fn wrong(&self, headline: String, formulas: &[&Typed]) -> Option<Diagnostic> {
        let mut behind = formulas.iter().flat_map(|formula| self.known.behind(formula));
        let (name, first) = behind.next()?;
        let diagnostic =
            Diagnostic::error(&SHEET_LIMITS, headline).at(first.span, format!("this is `{name}`"));
        let mut named = vec![name];
        let mut diagnostic = diagnostic;
        for (name, value) in behind {
            if !named.contains(&name) {
                diagnostic = diagnostic.also(value.span, format!("this is `{name}`"));
                named.push(name);
            }
        }
        let formulas: Vec<String> = formulas.iter().map(|formula| format!("`{}`", formula.text())).collect();
        let note = format!("the procedure has {}", formulas.join(" and "));
        Some(
            diagnostic
                .note(note)
                .help("compare the sheet with its sources; if it is right, the procedure is wrong"),
        )
    }

    /// A formula that cannot be worked out with these values, though it needs nothing else.
    fn trouble(&self, name: &Name, formula: &Typed) -> Option<Diagnostic> {
        match self.known.evaluate(formula) {
            Ok(_) | Err(EvalProblem::NotKnownYet(_) | EvalProblem::TooFewPasses { .. }) => None,
            Err(problem) => {
                let what = self.procedure.called(name);
                self.wrong(
                    format!("a formula of `{name}` ({what}) cannot be worked out: {problem}"),
                    &[formula],
                )
            }
        }
    }

    fn reading(&self, name: &Name, reading: &Reading) -> Vec<Diagnostic> {
        let criterion = self.procedure.criterion(name);
        let mut found: Vec<_> =
            criterion.map(|criterion| self.criterion(name, criterion)).unwrap_or_default();
        if let Some(ceiling) = &reading.ceiling {
            let ends = [(&ceiling.never_below, Ordering::Less), (&ceiling.never_above, Ordering::Greater)];
            for (end, beyond) in ends {
                let Some(end) = end else { continue };
                found.extend(self.trouble(name, end));
                found.extend(criterion.and_then(|criterion| self.past(name, criterion, (end, beyond))));
            }
        }
        found
    }

    /// A good value that must never be.
    fn past(
        &self,
        name: &Name,
        criterion: &Criterion,
        (end, beyond): (&Typed, Ordering),
    ) -> Option<Diagnostic> {
        let never = self.amount(end)?;
        let (limits, mut formulas) = self.in_force(criterion)?;
        let limit = if beyond == Ordering::Less { limits.lower } else { limits.upper }?;
        if limit.quantity.compare(&never) != Ok(beyond) {
            return None;
        }
        formulas.push(end);
        let what = self.procedure.called(name);
        let side = if beyond == Ordering::Less { "below" } else { "above" };
        let headline =
            format!("`{name}` ({what}) may be {} and must never be {side} {never}", limit.quantity);
        self.wrong(headline, &formulas)
    }

    fn criterion(&self, name: &Name, criterion: &Criterion) -> Vec<Diagnostic> {
        let mut found: Vec<_> =
            formulas_of(criterion).into_iter().filter_map(|formula| self.trouble(name, formula)).collect();
        found.extend(self.reversed(name, criterion));
        found
    }

    fn reversed(&self, name: &Name, criterion: &Criterion) -> Option<Diagnostic> {
        let (limits, formulas) = self.in_force(criterion)?;
        let (lower, upper) = (limits.lower?, limits.upper?);
        let nothing_between = match lower.quantity.compare(&upper.quantity).ok()? {
            Ordering::Greater => true,
            Ordering::Equal => !(lower.inclusive && upper.inclusive),
            Ordering::Less => false,
        };
        let what = self.procedure.called(name);
        let least = lower.quantity.to_string();
        let headline = format!(
            "nothing can be good for `{name}` ({what}): at least {least} and at most {}",
            upper.quantity
        );
        nothing_between.then(|| self.wrong(headline, &formulas)).flatten()
    }

    /// The limits as they stand with the sheet, and the formulas they come from.
    fn in_force<'c>(&self, criterion: &'c Criterion) -> Option<(Limits, Vec<&'c Typed>)> {
        let limit = |bound: &Bound| {
            let quantity = self.amount(&bound.formula)?;
            Some(crate::quantity::Limit { quantity, inclusive: bound.inclusive })
        };
        let limits = match criterion {
            Criterion::Limits { lower, upper } => {
                Limits { lower: lower.as_ref().and_then(limit), upper: upper.as_ref().and_then(limit) }
            }
            Criterion::Target { target, within } => {
                Limits::around(&self.amount(target)?, &self.amount(within)?).ok()?
            }
            Criterion::Nominal(_) | Criterion::InformationOnly => return None,
        };
        Some((limits, formulas_of(criterion)))
    }

    fn repeats(&self) -> Vec<Diagnostic> {
        let repeats = self.procedure.repeats().iter();
        let counts = repeats.flat_map(|(name, repeat)| {
            let times = match &repeat.passes {
                Passes::Times(times) => Some(times),
                Passes::Each(_) | Passes::EachOf(_) | Passes::Until(_) => None,
            };
            times.into_iter().chain(&repeat.at_most).map(move |formula| (name, formula))
        });
        counts.filter_map(|(name, formula)| self.count(name, formula, MOST_PASSES)).collect()
    }

    fn fasteners(&self) -> Vec<Diagnostic> {
        let mut found = Vec::new();
        for (name, group) in self.procedure.fasteners().iter() {
            if let Positions::Count(count) = &group.positions {
                let is_none = self.amount(count).is_some_and(|count| count.base() == Num::from(0));
                if !(is_none && self.may_not_apply(name)) {
                    found.extend(self.count(name, count, MOST_PLACES));
                }
            }
            found.extend(group.stages.iter().flat_map(|stage| self.stage(name, stage)));
        }
        found
    }

    /// Whether a condition may leave the step of a group out: a vehicle that has none of these fasteners says 0.
    fn may_not_apply(&self, group: &Name) -> bool {
        let step = self.procedure.home(group).and_then(|step| self.procedure.step(step));
        let around = std::iter::successors(step, |step| self.procedure.step(step.parent?));
        let section = step.and_then(|step| self.procedure.section(step.section));
        let mut conditions = around.flat_map(|step| &step.conditions);
        conditions.next().is_some() || section.is_some_and(|section| !section.conditions.is_empty())
    }

    /// A torque or an angle that a tool is set to is more than nothing.
    fn stage(&self, name: &Name, stage: &Stage) -> Vec<Diagnostic> {
        let is_set = stage.unit.is_none();
        match &stage.criterion {
            Some(Criterion::Target { target, within }) if is_set => {
                let trouble = self.trouble(name, within);
                self.more_than_nothing(name, target).into_iter().chain(trouble).collect()
            }
            Some(Criterion::Nominal(target)) if is_set => {
                self.more_than_nothing(name, target).into_iter().collect()
            }
            Some(criterion) => self.criterion(name, criterion),
            None => Vec::new(),
        }
    }

    fn supplies(&self) -> Vec<Diagnostic> {
        let supplies = self.procedure.materials().iter().chain(self.procedure.parts().iter());
        let amounts = supplies.flat_map(|(name, supply)| {
            supply.amount.iter().chain(&supply.pack).map(move |amount| (name, amount))
        });
        amounts.filter_map(|(name, amount)| self.more_than_nothing(name, amount)).collect()
    }

    /// A whole number from 1 to `most`.
    fn count(&self, name: &Name, formula: &Typed, most: usize) -> Option<Diagnostic> {
        let Some(count) = self.amount(formula).map(|count| count.base()) else {
            return self.trouble(name, formula);
        };
        let most = i64::try_from(most).unwrap_or(i64::MAX);
        let counts = count.is_whole() && Num::from(1) <= count && count <= Num::from(most);
        let what = self.procedure.called(name);
        let headline = format!(
            "`{name}` ({what}) counts to {}, and that is no whole number from 1 to {most}",
            count.shown()
        );
        (!counts).then(|| self.wrong(headline, &[formula])).flatten()
    }

    fn more_than_nothing(&self, name: &Name, formula: &Typed) -> Option<Diagnostic> {
        let Some(amount) = self.amount(formula) else {
            return self.trouble(name, formula);
        };
        let is_something = !amount.number.is_zero() && !amount.number.is_negative();
        let what = self.procedure.called(name);
        let headline = format!("`{name}` ({what}) is {amount}, and that is not more than nothing");
        (!is_something).then(|| self.wrong(headline, &[formula])).flatten()
    }
}

fn formulas_of(criterion: &Criterion) -> Vec<&Typed> {
    match criterion {
        Criterion::Limits { lower, upper } => lower.iter().chain(upper).map(|bound| &bound.formula).collect(),
        Criterion::Target { target, within } => vec![target, within],
        Criterion::Nominal(nominal) => vec![nominal],
        Criterion::InformationOnly => Vec::new(),
    }
}
