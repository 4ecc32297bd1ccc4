//! All declared names: the table of each, and what a formula may take it for.

use std::collections::BTreeMap;

use super::flow::{items_of_repeat, kind_of_repeat};
use crate::formula::{Scope, Type};
use crate::procedure::written::{WrittenKind, WrittenReading};
use crate::procedure::{Declarations, Name, Table};
use crate::source::{Span, suggest};

/// One declared name.
#[derive(Clone, Debug)]
pub(in crate::procedure) struct Declared {
    /// The table it stands in.
    pub(in crate::procedure) table: Table,
    /// Where.
    pub(in crate::procedure) span: Span,
    /// What a formula may take it for; none where it has no value, or could not be read.
    kind: Option<Type>,
    /// Whether its declaration could be read.
    readable: Readable,
    choices: Vec<String>,
    instead: Vec<String>,
}

/// Whether a declaration could be read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Readable {
    Yes,
    /// What is wrong with it has been said; nothing that follows from it needs saying.
    No,
}

/// All declared names. Of a name that is declared twice the first counts.
#[derive(Clone, Debug, Default)]
pub(in crate::procedure) struct Names {
    by_name: BTreeMap<Name, Declared>,
}

impl Names {
    pub(in crate::procedure) fn of(declarations: &Declarations) -> Self {
        let mut names = Self::default();
        for (name, table) in declarations.names() {
            names.by_name.entry(name.value.clone()).or_insert_with(|| Declared {
                table,
                span: name.span,
                kind: None,
                readable: Readable::Yes,
                choices: Vec::new(),
                instead: Vec::new(),
            });
        }
        names.add_kinds(declarations);
        names.mark_unreadable(declarations);
        names
    }

    fn add_kinds(&mut self, declarations: &Declarations) {
        for entry in &declarations.readings {
            let kind = entry.thing.as_ref().and_then(reading_kind);
            let choices = entry.thing.as_ref().map(choices).unwrap_or_default();
            self.set(&entry.name.value, Table::Readings, kind, choices);
            self.set_instead(&entry.name.value, entry.thing.as_ref());
        }
        for entry in &declarations.values {
            let kind = entry.thing.as_ref().map(|value| Type::of(&value.unit.value));
            self.set(&entry.name.value, Table::Values, kind, Vec::new());
        }
        for entry in &declarations.vehicle {
            let of_unit =
                |value: &crate::procedure::VehicleValue| value.unit.as_ref().map_or(Type::Text, Type::of);
            let choices = entry.thing.as_ref().map(|value| value.choices.clone()).unwrap_or_default();
            self.set(&entry.name.value, Table::Vehicle, entry.thing.as_ref().map(of_unit), choices);
        }
        for entry in &declarations.repeats {
            let kind = entry.thing.as_ref().map(kind_of_repeat);
            let items = entry.thing.as_ref().map(items_of_repeat).unwrap_or_default();
            self.set(&entry.name.value, Table::Repeats, kind, items);
        }
        for entry in &declarations.conditions {
            self.set(&entry.name.value, Table::Conditions, Some(Type::Truth), Vec::new());
        }
    }

    fn set(&mut self, name: &Name, table: Table, kind: Option<Type>, choices: Vec<String>) {
        if let Some(declared) = self.by_name.get_mut(name)
            && declared.table == table
        {
            declared.kind = kind;
            declared.choices = choices;
        }
    }

    fn set_instead(&mut self, name: &Name, reading: Option<&WrittenReading>) {
        if let (Some(declared), Some(reading)) = (self.by_name.get_mut(name), reading)
            && declared.table == Table::Readings
        {
            declared.instead = reading.instead.iter().map(|outcome| outcome.words.clone()).collect();
        }
    }

    fn mark_unreadable(&mut self, declarations: &Declarations) {
        let readings =
            declarations.readings.iter().filter(|entry| entry.thing.is_none()).map(|entry| &entry.name);
        let values =
            declarations.values.iter().filter(|entry| entry.thing.is_none()).map(|entry| &entry.name);
        let vehicle =
            declarations.vehicle.iter().filter(|entry| entry.thing.is_none()).map(|entry| &entry.name);
        for name in readings.chain(values).chain(vehicle) {
            if let Some(declared) = self.by_name.get_mut(&name.value) {
                declared.readable = Readable::No;
            }
        }
    }

    /// What is declared under that name.
    pub(in crate::procedure) fn get(&self, name: &Name) -> Option<&Declared> {
        self.by_name.get(name)
    }

    /// The name of that spelling.
    pub(in crate::procedure) fn key(&self, word: &str) -> Option<&Name> {
        self.by_name.get_key_value(&Name(word.to_owned())).map(|(name, _)| name)
    }

    /// The table a name stands in.
    pub(in crate::procedure) fn table(&self, name: &Name) -> Option<Table> {
        self.by_name.get(name).map(|declared| declared.table)
    }

    /// The name that was most likely meant, among those of the given tables; all where none are given.
    pub(in crate::procedure) fn nearest(&self, word: &str, tables: &[Table]) -> Option<&str> {
        let wanted = |declared: &Declared| tables.is_empty() || tables.contains(&declared.table);
        let fitting = self.by_name.iter().filter(|(_, declared)| wanted(declared));
        suggest::nearest(word, fitting.map(|(name, _)| name.as_str()))
    }

    /// All names with their declarations.
    pub(in crate::procedure) fn iter(&self) -> impl Iterator<Item = (&Name, &Declared)> {
        self.by_name.iter()
    }
}

impl Declared {
    /// Whether a formula can speak of it.
    pub(in crate::procedure) fn has_a_value(&self) -> bool {
        self.kind.is_some()
    }

    /// Whether its declaration could be read.
    pub(in crate::procedure) fn is_readable(&self) -> bool {
        self.readable == Readable::Yes
    }
}

fn reading_kind(reading: &WrittenReading) -> Option<Type> {
    match &reading.kind {
        WrittenKind::Quantity { unit, .. } => Some(Type::of(&unit.value)),
        WrittenKind::Count(_) => Some(Type::NUMBER),
        WrittenKind::Choice { .. } | WrittenKind::Text => Some(Type::Text),
        WrittenKind::Date { .. } | WrittenKind::List(_) | WrittenKind::File => None,
    }
}

fn choices(reading: &WrittenReading) -> Vec<String> {
    match &reading.kind {
        // An outcome is one more choice.
        WrittenKind::Choice { choices, .. } => {
            let instead = reading.instead.iter().map(|outcome| &outcome.words);
            choices.iter().chain(instead).cloned().collect()
        }
        _ => Vec::new(),
    }
}

impl Scope for Names {
    fn type_of(&self, name: &str) -> Option<Type> {
        self.by_name.get(&Name(name.to_owned()))?.kind
    }

    fn names(&self) -> Vec<String> {
        let with_value = self.by_name.iter().filter(|(_, declared)| declared.has_a_value());
        with_value.map(|(name, _)| name.0.clone()).collect()
    }

    fn has_passes(&self, name: &str) -> bool {
        matches!(self.table(&Name(name.to_owned())), Some(Table::Readings | Table::Values))
    }

    fn declared_at(&self, name: &str) -> Option<Span> {
        Some(self.by_name.get(&Name(name.to_owned()))?.span)
    }

    fn choices(&self, name: &str) -> Vec<String> {
        let declared = self.by_name.get(&Name(name.to_owned()));
        declared.map(|declared| declared.choices.clone()).unwrap_or_default()
    }

    fn instead(&self, name: &str) -> Vec<String> {
        let declared = self.by_name.get(&Name(name.to_owned()));
        declared.map(|declared| declared.instead.clone()).unwrap_or_default()
    }
}
