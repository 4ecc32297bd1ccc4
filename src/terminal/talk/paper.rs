//! Formulas and limits as they are said before a run: with the names of things, and with this vehicle's figures where
//! its sheet is at hand.

use crate::formula::{Typed, Value};
use crate::procedure::{Beforehand, Bound, CheckedProcedure, Condition, Criterion, Name};
use crate::run::place_count;
use crate::vehicle::Sheet;

/// A procedure on paper, with the sheet of a vehicle where one is given.
#[derive(Clone, Copy)]
pub(in crate::terminal::talk) struct Paper<'a> {
    pub(in crate::terminal::talk) procedure: &'a CheckedProcedure,
    known: Beforehand<'a>,
}

impl<'a> Paper<'a> {
    pub(in crate::terminal::talk) const fn new(
        procedure: &'a CheckedProcedure,
        sheet: Option<&'a Sheet>,
    ) -> Self {
        Self { procedure, known: Beforehand::new(procedure, sheet) }
    }

    /// What the sheet says of a vehicle value, and where that was found: `1.6 L (workshop manual, page 12)`.
    pub(in crate::terminal::talk) fn said(self, name: &Name) -> Option<String> {
        let said = self.known.said(name)?;
        Some(format!("{} ({})", said.text, said.source))
    }

    /// A formula: its figure where it can be worked out now, and in the words of the things it speaks of.
    pub(in crate::terminal::talk) fn formula(self, formula: &Typed) -> String {
        let words = self.procedure.worded(formula);
        match self.known.evaluate(formula) {
            Ok(_) if formula.names().is_empty() => words,
            Ok(Value::Quantity(quantity)) => format!("{} ({words})", Value::Quantity(quantity)),
            Ok(other) => format!("{other} ({words})"),
            Err(_) => words,
        }
    }

    /// How many places a group of fasteners has, where that is known before the job.
    pub(in crate::terminal::talk) fn count(self, formula: &Typed) -> Option<usize> {
        place_count(&self.known.evaluate(formula).ok()?)
    }

    /// What a result has to meet; nothing where the source gives no limit.
    pub(in crate::terminal::talk) fn criterion(self, criterion: &Criterion) -> Option<String> {
        let lower = |bound: &Bound| {
            format!("{} {}", if bound.inclusive { "at least" } else { "above" }, self.formula(&bound.formula))
        };
        let upper = |bound: &Bound| {
            format!("{} {}", if bound.inclusive { "at most" } else { "below" }, self.formula(&bound.formula))
        };
        match criterion {
            Criterion::Limits { lower: least, upper: most } => {
                let both: Vec<String> = least.iter().map(lower).chain(most.iter().map(upper)).collect();
                Some(both.join(" and "))
            }
            Criterion::Target { target, within } => {
                Some(format!("{}, plus or minus {}", self.formula(target), self.formula(within)))
            }
            Criterion::Nominal(nominal) => {
                Some(format!("nominal {}; the person says whether it is good", self.formula(nominal)))
            }
            Criterion::InformationOnly => None,
        }
    }

    /// What a condition rests on.
    pub(in crate::terminal::talk) fn condition(self, condition: &Condition) -> String {
        condition
            .formula()
            .map_or_else(|| self.procedure.condition_words(condition), |formula| self.formula(formula))
    }
}
