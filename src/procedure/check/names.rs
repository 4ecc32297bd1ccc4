//! All declared names: the table of each, and what a formula may take it for.

use std::cell::Cell;
use std::collections::HashMap;

use crate::formula::{Scope, Type};
use crate::procedure::{Name, Table};
use crate::source::{Span, suggest};

/// One declared name.
#[derive(Clone, Debug)]
pub(in crate::procedure) struct Declared {
    /// The table it stands in.
    pub(in crate::procedure) table: Table,
    /// Where.
    pub(in crate::procedure) span: Span,
    /// Whether its declaration could be read. Where not, that has been said, and nothing that follows from it needs saying.
    pub(in crate::procedure) is_readable: bool,
    /// What a formula may take it for; nothing where it has no value, or could not be read.
    pub(in crate::procedure) valued: Option<Valued>,
}

/// What a formula may take a name for.
#[derive(Clone, Debug)]
pub(in crate::procedure) struct Valued {
    /// The kind of its value.
    pub(in crate::procedure) kind: Type,
    /// The words that it can be; none where it can be any.
    pub(in crate::procedure) choices: Vec<String>,
    /// The words that can stand in place of its value.
    pub(in crate::procedure) instead: Vec<String>,
}

impl Valued {
    /// A value of that kind, whatever it is.
    pub(in crate::procedure) const fn any(kind: Type) -> Self {
        Self { kind, choices: Vec::new(), instead: Vec::new() }
    }
}

/// All declared names.
#[derive(Clone, Debug, Default)]
pub(in crate::procedure) struct Names {
    /// In the order of their letters.
    all: Vec<(Name, Declared)>,
    places: HashMap<Name, usize>,
    /// How many names were compared with what was written and is none, so far.
    compared: Cell<usize>,
}

/// The most comparisons in one file for "did you mean": of a thousand unknown names among a thousand each is helped, of a
/// hundred thousand the first ten.
const COMPARED: usize = 1_000_000;

/// Of a name that comes twice the first counts.
impl FromIterator<(Name, Declared)> for Names {
    fn from_iter<I: IntoIterator<Item = (Name, Declared)>>(all: I) -> Self {
        let mut all: Vec<(Name, Declared)> = all.into_iter().collect();
        all.sort_by(|(one, _), (other, _)| one.cmp(other));
        all.dedup_by(|(later, _), (first, _)| later == first);
        let places = all.iter().enumerate().map(|(place, (name, _))| (name.clone(), place)).collect();
        Self { all, places, compared: Cell::new(0) }
    }
}

impl Names {
    fn entry(&self, word: &str) -> Option<&(Name, Declared)> {
        self.all.get(*self.places.get(word)?)
    }

    /// What is declared under that name.
    pub(in crate::procedure) fn get(&self, name: &Name) -> Option<&Declared> {
        self.entry(name.as_str()).map(|(_, declared)| declared)
    }

    /// The name of that spelling.
    pub(in crate::procedure) fn key(&self, word: &str) -> Option<&Name> {
        self.entry(word).map(|(name, _)| name)
    }

    /// The table a name stands in.
    pub(in crate::procedure) fn table(&self, name: &Name) -> Option<Table> {
        self.get(name).map(|declared| declared.table)
    }

    /// The name that was most likely meant, among those of the given tables; all where none are given.
    pub(in crate::procedure) fn nearest(&self, word: &str, tables: &[Table]) -> Option<&str> {
        let wanted = |declared: &Declared| tables.is_empty() || tables.contains(&declared.table);
        let fitting = self.iter().filter(|(_, declared)| wanted(declared));
        self.nearest_of(word, fitting.map(|(name, _)| name.as_str()))
    }

    fn nearest_of<'n>(&self, word: &str, names: impl Iterator<Item = &'n str>) -> Option<&'n str> {
        let compared = self.compared.get().saturating_add(self.all.len());
        self.compared.set(compared);
        if compared > COMPARED { None } else { suggest::nearest(word, names) }
    }

    /// All names with their declarations.
    pub(in crate::procedure) fn iter(&self) -> impl Iterator<Item = (&Name, &Declared)> {
        self.all.iter().map(|(name, declared)| (name, declared))
    }
}

impl Declared {
    /// Whether a formula can speak of it.
    pub(in crate::procedure) fn has_a_value(&self) -> bool {
        self.valued.is_some()
    }
}

impl Names {
    /// The words that a name can be; none where it can be any, or is no choice.
    pub(in crate::procedure) fn words_of(&self, name: &str) -> &[String] {
        self.valued(name).map(|valued| valued.choices.as_slice()).unwrap_or_default()
    }

    fn valued(&self, name: &str) -> Option<&Valued> {
        self.entry(name)?.1.valued.as_ref()
    }
}

impl Scope for Names {
    fn type_of(&self, name: &str) -> Option<Type> {
        self.valued(name).map(|valued| valued.kind)
    }

    fn names(&self) -> Vec<String> {
        let with_value = self.iter().filter(|(_, declared)| declared.has_a_value());
        with_value.map(|(name, _)| name.to_string()).collect()
    }

    fn has_names(&self) -> bool {
        self.all.iter().any(|(_, declared)| declared.has_a_value())
    }

    fn nearest(&self, name: &str) -> Option<String> {
        let with_value = self.iter().filter(|(_, declared)| declared.has_a_value());
        self.nearest_of(name, with_value.map(|(name, _)| name.as_str())).map(str::to_owned)
    }

    fn has_passes(&self, name: &str) -> bool {
        matches!(self.entry(name).map(|(_, declared)| declared.table), Some(Table::Readings | Table::Values))
    }

    fn declared_at(&self, name: &str) -> Option<Span> {
        Some(self.entry(name)?.1.span)
    }

    fn choices(&self, name: &str) -> Vec<String> {
        self.words_of(name).to_vec()
    }

    fn instead(&self, name: &str) -> Vec<String> {
        self.valued(name).map(|valued| valued.instead.clone()).unwrap_or_default()
    }
}
