//! A vehicle sheet: the vehicle, what identifies it, and its values with their sources.

use std::collections::{BTreeMap, BTreeSet};

use crate::quantity::{Quantity, Unit};
use crate::source::{SourceText, Span};

/// What is known of one vehicle.
#[derive(Clone, Debug)]
pub struct Sheet {
    pub(super) text: SourceText,
    pub(super) vehicle: String,
    pub(super) identification: String,
    pub(super) odometer_unit: Unit,
    pub(super) values: BTreeMap<String, SheetValue>,
    pub(super) not_given: BTreeSet<String>,
    pub(super) place: Span,
}

/// One value and where it was found.
#[derive(Clone, Debug)]
pub struct SheetValue {
    /// As it stands in the sheet.
    pub text: String,
    /// The quantity it is, where it is one.
    pub quantity: Option<Quantity>,
    /// Where it was found: a manual and its page, a plate, a weighbridge slip.
    pub source: String,
    /// Where the value stands in the sheet, quotes included.
    pub span: Span,
}

impl Sheet {
    /// The text it was read from; every span points into it.
    pub fn text(&self) -> &SourceText {
        &self.text
    }

    /// What its people call the vehicle.
    pub fn vehicle(&self) -> &str {
        &self.vehicle
    }

    /// The number that identifies it.
    pub fn identification(&self) -> &str {
        &self.identification
    }

    /// What its odometer counts: kilometres or miles.
    pub fn odometer_unit(&self) -> &Unit {
        &self.odometer_unit
    }

    /// The value of that name.
    pub fn value(&self, name: &str) -> Option<&SheetValue> {
        self.values.get(name)
    }

    /// Whether somebody looked for it, and no source gives it.
    pub fn is_not_given(&self, name: &str) -> bool {
        self.not_given.contains(name)
    }

    /// All values by name, sorted by name.
    pub fn values(&self) -> impl Iterator<Item = (&str, &SheetValue)> {
        self.values.iter().map(|(name, value)| (name.as_str(), value))
    }

    /// Where messages about the sheet as a whole point.
    pub fn place(&self) -> Span {
        self.place
    }
}
