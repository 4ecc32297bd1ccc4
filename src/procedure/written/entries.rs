//! The entries of any table, each a name and its keys.

use std::borrow::Cow;
use std::collections::BTreeSet;

use toml::de::{DeTable, DeValue};

use super::codes::NONE_NOT_SAID;
use crate::procedure::{Name, Table};
use crate::source::{Diagnostic, Span, Spanned};
use crate::table::{Fields, Item, badly_formed};

/// A name and what was declared under it; nothing where that could not be read.
#[derive(Clone, Debug)]
pub(in crate::procedure) struct Entry<T> {
    /// The name and where it is declared.
    pub name: Spanned<Name>,
    /// What it names. Some things are large, and of a file full of slips none is there.
    pub thing: Option<Box<T>>,
}

/// The entries of one table, in the order of the file; no two have the same name.
#[derive(Clone, Debug)]
pub(in crate::procedure) struct Entries<T> {
    all: Vec<Entry<T>>,
    /// Their places, in the order of their names.
    by_name: Vec<usize>,
}

impl<T> Default for Entries<T> {
    fn default() -> Self {
        Self { all: Vec::new(), by_name: Vec::new() }
    }
}

impl<T> Entries<T> {
    fn of(all: Vec<Entry<T>>) -> Self {
        let mut by_name: Vec<usize> = (0..all.len()).collect();
        by_name.sort_by_key(|place| all.get(*place).map(|entry| &entry.name.value));
        Self { all, by_name }
    }

    /// The entry of that name.
    pub(in crate::procedure) fn named(&self, name: &str) -> Option<&Entry<T>> {
        let spelling = |place: &usize| self.all.get(*place).map(|entry| entry.name.value.as_str());
        let found = self.by_name.binary_search_by(|place| spelling(place).cmp(&Some(name))).ok()?;
        self.all.get(*self.by_name.get(found)?)
    }

    /// What was declared under that name, where it could be read.
    pub(in crate::procedure) fn thing(&self, name: &str) -> Option<&T> {
        self.named(name)?.thing.as_deref()
    }
}

impl<T> std::ops::Deref for Entries<T> {
    type Target = [Entry<T>];

    fn deref(&self) -> &[Entry<T>] {
        &self.all
    }
}

/// Reads one entry's keys.
type Reader<T> = fn(&mut Fields<'_, '_, '_>) -> Option<T>;

/// The entries of a table, in the order of the file. Where `none_is_said`, it must be there or be declared `"none"`.
pub(in crate::procedure) fn read_entries<T>(
    front: &mut Fields<'_, '_, '_>,
    table: Table,
    none_is_said: bool,
    reader: Reader<T>,
) -> Entries<T> {
    let item = front.item(table.key());
    if none_is_said && matches!(item, Some(Item { value: DeValue::String(text), .. }) if text == "none") {
        return Entries::default();
    }
    let mut entries = item.map(|item| all(front, item, table, reader)).unwrap_or_default();
    entries.extend(lost(front, table));
    let is_table = item.is_none_or(|item| matches!(item.value, DeValue::Table(_)));
    if none_is_said && entries.is_empty() && is_table && !front.is_lost(table.key()) {
        front.scribe.note(none_not_said(table, item.map_or(front.place(), |item| item.key)));
    }
    Entries::of(entries)
}

/// The entries that a slip touched: their names are declared, and nothing more is known of them.
fn lost<T>(front: &Fields<'_, '_, '_>, table: Table) -> Vec<Entry<T>> {
    let names = front.scribe.lost.entries(table.key());
    let well_formed = names.filter(|(name, _)| Name::is_well_formed(name));
    let entry = |(name, place): (&str, std::ops::Range<usize>)| Entry {
        name: Spanned::new(Name::from(name), front.scribe.span(&place)),
        thing: None,
    };
    well_formed.map(entry).collect()
}

fn none_not_said(table: Table, place: Span) -> Diagnostic {
    let key = table.key();
    let verb = if table == Table::Hazards { "has" } else { "needs" };
    Diagnostic::error(&NONE_NOT_SAID, format!("the procedure does not say which {key} it {verb}"))
        .at(place, format!("no {key} named"))
        .help(format!("name them under `[{key}]`, or write `{key} = \"none\"` above the first table"))
}

fn all<T>(front: &mut Fields<'_, '_, '_>, item: Item<'_>, table: Table, reader: Reader<T>) -> Vec<Entry<T>> {
    let DeValue::Table(inner) = item.value else {
        front.wrong_type(table.key(), item, &format!("a table `[{}.name]` for each", table.key()));
        return Vec::new();
    };
    let place = item.key;
    let rest = Fields::new(inner, table.key(), place, front.scribe).rest();
    let touched: BTreeSet<String> =
        front.scribe.lost.entries(table.key()).map(|(name, _)| name.to_owned()).collect();
    // What is left of an entry that a slip touched would be judged as if it were all.
    let whole = rest.into_iter().filter(|(name, _)| !touched.contains(&name.value));
    whole.filter_map(|(name, item)| one(front, name, item, table, reader)).collect()
}

fn one<T>(
    front: &mut Fields<'_, '_, '_>,
    name: Spanned<String>,
    item: Item<'_>,
    table: Table,
    reader: Reader<T>,
) -> Option<Entry<T>> {
    if !Name::is_well_formed(&name.value) {
        front.scribe.note(badly_formed(&name));
        return None;
    }
    let owner = format!("the {table} `{}`", name.value);
    let short;
    let inner = match item.value {
        DeValue::Table(inner) => inner,
        DeValue::String(what) => {
            short = only_what(what, item.span, front.scribe.base);
            &short
        }
        _ => {
            front.wrong_type(&name.value, item, "what it is, in quotes, or a table");
            return Some(Entry { name: named(name), thing: None });
        }
    };
    let mut fields = Fields::new(inner, owner, name.span, front.scribe);
    let thing = reader(&mut fields).map(Box::new);
    fields.finish();
    Some(Entry { name: named(name), thing })
}

fn named(name: Spanned<String>) -> Spanned<Name> {
    Spanned::new(Name::from(name.value), name.span)
}

/// `jug = "measuring jug"` is short for `jug = { what = "measuring jug" }`.
fn only_what(what: &str, span: Span, base: usize) -> DeTable<'_> {
    let range = span.start.saturating_sub(base)..span.end.saturating_sub(base);
    let mut table = DeTable::new();
    let key = toml::Spanned::new(range.clone(), Cow::Borrowed("what"));
    table.insert(key, toml::Spanned::new(range, DeValue::String(Cow::Borrowed(what))));
    table
}
