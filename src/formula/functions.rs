//! The table of all functions that a formula can call: the arithmetic ones and those of the trade.

use super::arithmetic::ARITHMETIC;
use crate::quantity::Unit;
use crate::source::suggest::nearest;
use crate::trade::{Function, SUBJECTS, Subject};

/// Every subject with its functions, arithmetic first.
pub fn subjects() -> impl Iterator<Item = &'static Subject> {
    std::iter::once(&ARITHMETIC).chain(SUBJECTS)
}

/// Every function, subject by subject.
pub fn functions() -> impl Iterator<Item = &'static Function> {
    subjects().flat_map(|subject| subject.functions)
}

/// The function of this name.
pub fn find(name: &str) -> Option<&'static Function> {
    functions().find(|function| function.name == name)
}

/// The function that `name` was most likely meant to be.
pub fn meant(name: &str) -> Option<&'static Function> {
    nearest(name, names()).and_then(find)
}

pub(super) fn names() -> impl Iterator<Item = &'static str> {
    functions().map(|function| function.name)
}

/// The unit that a row names. A test of the tables holds every row to a unit that there is.
pub(super) fn row_unit(text: &str) -> Unit {
    Unit::parse(text).unwrap_or_else(|_| Unit::one())
}
