//! What a table of the front matter has to say of its entries, and what is done with the entries of any table.

use std::fmt::Debug;

use super::check::{Declared, Proved, Prover, Valued};
use super::link::{Rename, Renaming};
use super::written::{Entries, Entry, read_entries};
use super::{Name, Named, Table};
use crate::source::Spanned;
use crate::table::Fields;

/// What stands in a table of the front matter, from its text to what a run uses.
pub(super) trait Declarable: Sized + Rename {
    /// The same as written: names not followed, formulas still texts.
    type Written: Clone + Debug;

    /// Whether a file that declares none of them has to say so.
    const NONE_IS_SAID: bool = false;

    /// Whether a step that begins with its name says with it something of the whole step.
    const IN_FRONT: bool = false;

    /// What becomes of one that nothing mentions.
    const UNMENTIONED: &'static str = "not used";

    /// Reads one entry's keys.
    fn read(fields: &mut Fields<'_, '_, '_>) -> Option<Self::Written>;

    /// The names that it speaks of, beside those in its formulas.
    fn spoken(_written: &Self::Written) -> Vec<Spoken<'_>> {
        Vec::new()
    }

    /// Proves its formulas.
    fn prove(_name: &Spanned<Name>, _written: &Self::Written, _prover: &mut Prover<'_>) {}

    /// What it is once its names are followed and its formulas proved; nothing where one of them is wrong.
    fn checked(name: &Name, written: &Self::Written, proved: &Proved<'_>) -> Option<Self>;

    /// What a formula may take its name for; nothing where it has no value. Nothing is given where it could not be read.
    fn valued(_written: Option<&Self::Written>) -> Option<Valued> {
        None
    }

    /// The words that its name is shown as.
    fn called(&self) -> Called<'_>;
}

/// What the name of an entry is shown as.
pub(super) enum Called<'t> {
    /// These words.
    Words(&'t str),
    /// What that other name is shown as.
    As(&'t Name),
    /// It stands for itself.
    Nothing,
}

/// A name that an entry speaks of.
#[derive(Clone, Copy, Debug)]
pub(super) struct Spoken<'w> {
    /// The name.
    pub(super) name: &'w Spanned<String>,
    /// The tables that it may stand in; the first one is what a message asks for.
    pub(super) tables: &'static [Table],
    /// What it is there, in a message: `an instrument`.
    pub(super) whose: &'static str,
    /// Whether that is a use of it. What only judges a reading does not take it.
    pub(super) is_use: bool,
}

impl<'w> Spoken<'w> {
    /// A name that is used by being spoken of.
    pub(super) const fn of(name: &'w Spanned<String>, tables: &'static [Table], whose: &'static str) -> Self {
        Self { name, tables, whose, is_use: true }
    }

    /// A name that has to be used elsewhere.
    pub(super) const fn not_used(self) -> Self {
        Self { is_use: false, ..self }
    }
}

/// The entries of a table, in the order of the file.
pub(super) fn entries<T: Declarable>(front: &mut Fields<'_, '_, '_>, table: Table) -> Entries<T::Written> {
    read_entries(front, table, T::NONE_IS_SAID, T::read)
}

/// The names that the entries speak of.
pub(super) fn spoken_in<T: Declarable>(entries: &[Entry<T::Written>]) -> impl Iterator<Item = Spoken<'_>> {
    entries.iter().filter_map(|entry| entry.thing.as_deref()).flat_map(T::spoken)
}

/// A name, and what a formula may take it for.
pub(super) fn declared<T: Declarable>(entry: &Entry<T::Written>, table: Table) -> (Name, Declared) {
    let valued = T::valued(entry.thing.as_deref());
    let is_readable = entry.thing.is_some();
    (entry.name.value.clone(), Declared { table, span: entry.name.span, is_readable, valued })
}

/// Proves the formulas of the entries.
pub(super) fn prove_all<T: Declarable>(entries: &[Entry<T::Written>], prover: &mut Prover<'_>) {
    for entry in entries {
        if let Some(written) = &entry.thing {
            T::prove(&entry.name, written, prover);
        }
    }
}

/// The entries, checked.
pub(super) fn checked<T: Declarable>(entries: &[Entry<T::Written>], proved: &Proved<'_>) -> Named<T> {
    let one = |entry: &Entry<T::Written>| {
        let name = &entry.name.value;
        Some((name.clone(), T::checked(name, entry.thing.as_deref()?, proved)?))
    };
    entries.iter().filter_map(one).collect()
}

/// Adds what a linked procedure declares, under its new names. What is shared stays what it was.
pub(super) fn join<T: Declarable>(things: &mut Named<T>, linked: &Named<T>, to: &Renaming) {
    for (name, thing) in linked.renamed(to).into_pairs() {
        if !things.contains(&name) {
            things.add(name, thing);
        }
    }
}
