//! What the checked things are made of.

use super::formulas::Formulas;
use super::names::Names;
use crate::formula::Typed;
use crate::procedure::Name;

/// What the checked things are made of beside what was written: the names, and the formulas, proved.
pub(in crate::procedure) struct Proved<'d> {
    /// The declared names.
    pub(in crate::procedure) names: &'d Names,
    /// The formulas, proved.
    pub(in crate::procedure) formulas: &'d Formulas,
}

impl Proved<'_> {
    /// The formula under that key of an entry.
    pub(in crate::procedure) fn typed(&self, name: &Name, key: &str) -> Option<Typed> {
        self.formulas.flow.get(&(name.clone(), key.to_owned())).cloned()
    }
}
