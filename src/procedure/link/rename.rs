//! New names for everything that a linked procedure names, so that two procedures never mean the same by accident.

use std::collections::BTreeSet;

use jiff::civil::Date;

use crate::formula::Typed;
use crate::procedure::{
    Instead, LevelOfUse, Name, Named, Order, PassageKind, Pattern, Piece, Rare, SectionId, Signal, StepId,
};
use crate::quantity::{Quantity, Unit};
use crate::source::{Span, Spanned};
use crate::trade::measurement::Rule;

/// What becomes of the names of a linked procedure.
pub(in crate::procedure) struct Renaming {
    /// What all but the shared ones begin with, without the stroke: `flush`.
    pub(in crate::procedure) prefix: String,
    /// Roles and vehicle values.
    pub(in crate::procedure) shared: BTreeSet<Name>,
}

impl Renaming {
    fn name(&self, name: &str) -> String {
        if self.shared.contains(name) { name.to_owned() } else { self.within(name) }
    }

    /// What belongs to the linked procedure, as the linking one calls it: `flush/bleed`.
    pub(in crate::procedure) fn within(&self, name: &str) -> String {
        format!("{}/{name}", self.prefix)
    }
}

/// What names things, and can be given other names.
pub(in crate::procedure) trait Rename {
    /// The same with other names.
    fn renamed(&self, to: &Renaming) -> Self;
}

impl Rename for Name {
    fn renamed(&self, to: &Renaming) -> Self {
        if to.shared.contains(self) { self.clone() } else { Self::from(to.within(self.as_str())) }
    }
}

impl Rename for Typed {
    fn renamed(&self, to: &Renaming) -> Self {
        self.rename(&|name| to.name(name))
    }
}

impl Rename for Piece {
    fn renamed(&self, to: &Renaming) -> Self {
        match self {
            Self::Text(words) => Self::Text(words.clone()),
            Self::Mention(name) => Self::Mention(Spanned::new(name.value.renamed(to), name.span)),
        }
    }
}

impl<T: Rename> Rename for Vec<T> {
    fn renamed(&self, to: &Renaming) -> Self {
        self.iter().map(|thing| thing.renamed(to)).collect()
    }
}

impl<T: Rename> Rename for Rare<T> {
    fn renamed(&self, to: &Renaming) -> Self {
        self.iter().map(|thing| thing.renamed(to)).collect()
    }
}

impl<T: Rename> Rename for Box<T> {
    fn renamed(&self, to: &Renaming) -> Self {
        Self::new((**self).renamed(to))
    }
}

impl<T: Rename> Rename for Option<T> {
    fn renamed(&self, to: &Renaming) -> Self {
        self.as_ref().map(|thing| thing.renamed(to))
    }
}

impl<A: Rename, B: Rename> Rename for (A, B) {
    fn renamed(&self, to: &Renaming) -> Self {
        (self.0.renamed(to), self.1.renamed(to))
    }
}

impl<T: Rename> Rename for Named<T> {
    fn renamed(&self, to: &Renaming) -> Self {
        self.iter().map(|(name, thing)| (name.renamed(to), thing.renamed(to))).collect()
    }
}

/// Things that name nothing.
macro_rules! without_names {
    ($($kind:ty),* $(,)?) => {
        $(impl Rename for $kind {
            fn renamed(&self, _to: &Renaming) -> Self {
                self.clone()
            }
        })*
    };
}

without_names!(
    bool,
    usize,
    String,
    Date,
    Instead,
    Quantity,
    Unit,
    Rule,
    Span,
    LevelOfUse,
    Order,
    PassageKind,
    Pattern,
    SectionId,
    Signal,
    StepId,
);

/// Things whose fields are all given other names.
macro_rules! all_fields {
    ($($kind:ident { $($field:ident),* })*) => {
        $(impl $crate::procedure::link::Rename for $kind {
            fn renamed(&self, to: &$crate::procedure::link::Renaming) -> Self {
                let Self { $($field),* } = self;
                Self { $($field: $crate::procedure::link::Rename::renamed($field, to)),* }
            }
        })*
    };
}
pub(in crate::procedure) use all_fields;
