//! What is known before anything is done: the values of the vehicle, from its sheet.

use super::{CheckedProcedure, Name};
use crate::formula::{EvalProblem, Typed, Value, World};
use crate::vehicle::{Sheet, SheetValue};

/// What formulas can speak of before the job.
#[derive(Clone, Copy, Debug)]
pub struct Beforehand<'a> {
    procedure: &'a CheckedProcedure,
    sheet: Option<&'a Sheet>,
}

impl<'a> Beforehand<'a> {
    /// With what the sheet of a vehicle says, where there is one.
    pub const fn new(procedure: &'a CheckedProcedure, sheet: Option<&'a Sheet>) -> Self {
        Self { procedure, sheet }
    }

    /// What the sheet says of a value that the procedure asks for.
    pub fn said(self, name: &Name) -> Option<&'a SheetValue> {
        self.procedure.vehicle().get(name)?;
        self.sheet?.value(name.as_str())
    }

    /// What a formula comes to, where it speaks of nothing but vehicle values that the sheet gives. A number of passes, for
    /// example, is none before the job.
    pub fn evaluate(self, formula: &Typed) -> Result<Value, EvalProblem> {
        let names = formula.names().iter().map(|name| Name::from(&name.value));
        let missing = names.into_iter().find(|name| self.said(name).is_none());
        missing
            .map_or_else(|| formula.evaluate(&self), |name| Err(EvalProblem::NotKnownYet(name.to_string())))
    }

    /// What the sheet says of each vehicle value that a formula speaks of, in the order of the formula.
    pub fn behind(self, formula: &Typed) -> Vec<(Name, &'a SheetValue)> {
        let names = formula.names().iter().map(|name| Name::from(&name.value));
        names.filter_map(|name| Some((name.clone(), self.said(&name)?))).collect()
    }
}

impl World for Beforehand<'_> {
    fn value_of(&self, name: &str) -> Option<Value> {
        let name = Name::from(name);
        let declared = self.procedure.vehicle().get(&name)?;
        let said = self.said(&name)?;
        match &declared.unit {
            Some(unit) => said.quantity.as_ref()?.in_unit(unit).ok().map(Value::Quantity),
            None => Some(Value::Text(said.text.clone())),
        }
    }
}
