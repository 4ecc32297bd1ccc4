//! The unit in which what a part of a formula came to suggests to be shown.

use std::sync::{Mutex, PoisonError};

use crate::quantity::{Kind, Unit};

/// A unit that suggests itself. What it is made of is kept, and put together only once somebody asks for it: most parts
/// of a formula are never shown.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Suggested {
    Unit(Unit),
    Times(Box<(Self, Self)>),
    Per(Box<(Self, Self)>),
    Power(Box<Self>, i32),
    Difference(Box<Self>),
}

impl Suggested {
    pub(super) fn times(self, other: Self) -> Self {
        Self::Times(Box::new((self, other)))
    }

    pub(super) fn per(self, other: Self) -> Self {
        Self::Per(Box::new((self, other)))
    }

    pub(super) fn powi(self, exponent: i32) -> Self {
        Self::Power(Box::new(self), exponent)
    }

    pub(super) fn into_difference(self) -> Self {
        match self {
            Self::Unit(unit) if unit.kind() == Kind::Difference => Self::Unit(unit),
            other => Self::Difference(Box::new(other)),
        }
    }

    /// The unit, put together.
    pub(super) fn unit(&self) -> Unit {
        match self {
            Self::Unit(unit) => unit.clone(),
            Self::Times(sides) => sides.0.unit().times(&sides.1.unit()),
            Self::Per(sides) => sides.0.unit().per(&sides.1.unit()),
            Self::Power(base, exponent) => base.unit().powi(*exponent),
            Self::Difference(of) => of.unit().as_difference(),
        }
    }
}

/// The unit that a formula was last shown in, and what it was put together of: values come in the same units each time.
#[derive(Debug, Default)]
pub(super) struct LastShown(Mutex<Option<(Suggested, Unit)>>);

impl LastShown {
    /// The unit that is shown where this suggests itself, as `shown` makes it.
    pub(super) fn of(&self, suggested: &Suggested, shown: impl FnOnce(Unit) -> Unit) -> Unit {
        // What a panic could have left half done is a pair that belongs together or none.
        let mut last = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some((_, unit)) = last.as_ref().filter(|(of, _)| of == suggested) {
            return unit.clone();
        }
        let unit = shown(suggested.unit());
        *last = Some((suggested.clone(), unit.clone()));
        unit
    }
}
