use std::borrow::Cow;
use std::fmt;

use toml::de::{DeTable, DeValue};

use super::codes::NONE_NOT_SAID;
use crate::procedure::Name;
use crate::source::{Diagnostic, Span, Spanned};
use crate::table::{Fields, Item, badly_formed};

/// The tables whose entries have names.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Table {
    /// `[roles]`
    Roles,
    /// `[tools]`
    Tools,
    /// `[materials]`
    Materials,
    /// `[parts]`
    Parts,
    /// `[vehicle]`
    Vehicle,
    /// `[hazards]`
    Hazards,
    /// `[holds]`
    Holds,
    /// `[readings]`
    Readings,
    /// `[values]`
    Values,
    /// `[conditions]`
    Conditions,
    /// `[waits]`
    Waits,
    /// `[repeats]`
    Repeats,
    /// `[alternatives]`
    Alternatives,
    /// `[levels]`
    Levels,
    /// `[fasteners]`
    Fasteners,
    /// `[checks]`
    Checks,
    /// `[witnesses]`
    Witnesses,
    /// `[critical]`
    Critical,
    /// `[watches]`
    Watches,
    /// `[stopping_points]`
    StoppingPoints,
    /// `[steps]`
    Steps,
}

impl Table {
    /// The key it has in the front matter.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Roles => "roles",
            Self::Tools => "tools",
            Self::Materials => "materials",
            Self::Parts => "parts",
            Self::Vehicle => "vehicle",
            Self::Hazards => "hazards",
            Self::Holds => "holds",
            Self::Readings => "readings",
            Self::Values => "values",
            Self::Conditions => "conditions",
            Self::Waits => "waits",
            Self::Repeats => "repeats",
            Self::Alternatives => "alternatives",
            Self::Levels => "levels",
            Self::Fasteners => "fasteners",
            Self::Checks => "checks",
            Self::Witnesses => "witnesses",
            Self::Critical => "critical",
            Self::Watches => "watches",
            Self::StoppingPoints => "stopping_points",
            Self::Steps => "steps",
        }
    }

    /// What one of its entries is.
    pub const fn noun(self) -> &'static str {
        match self {
            Self::Roles => "role",
            Self::Tools => "tool",
            Self::Materials => "material",
            Self::Parts => "part",
            Self::Vehicle => "vehicle value",
            Self::Hazards => "hazard",
            Self::Holds => "hold point",
            Self::Readings => "reading",
            Self::Values => "computed value",
            Self::Conditions => "condition",
            Self::Waits => "wait",
            Self::Repeats => "repeat",
            Self::Alternatives => "choice of ways",
            Self::Levels => "level of use",
            Self::Fasteners => "group of fasteners",
            Self::Checks => "check",
            Self::Witnesses => "witness point",
            Self::Critical => "critical act",
            Self::Watches => "limit in force",
            Self::StoppingPoints => "stopping point",
            Self::Steps => "step",
        }
    }
}

impl fmt::Display for Table {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(self.noun())
    }
}

/// A name and what was declared under it; nothing where that could not be read.
#[derive(Clone, Debug)]
pub struct Entry<T> {
    /// The name and where it is declared.
    pub name: Spanned<Name>,
    /// What it names.
    pub thing: Option<T>,
}

/// Reads one entry's keys.
pub(super) type Reader<T> = fn(&mut Fields<'_, '_, '_>) -> Option<T>;

/// The entries of a table, in the order of the file.
pub(super) fn entries<T>(front: &mut Fields<'_, '_, '_>, table: Table, reader: Reader<T>) -> Vec<Entry<T>> {
    match front.item(table.key()) {
        Some(item) => all(front, item, table, reader),
        None => Vec::new(),
    }
}

/// The same for a table that must be there, or be declared `"none"`.
pub(super) fn entries_or_none<T>(
    front: &mut Fields<'_, '_, '_>,
    table: Table,
    reader: Reader<T>,
) -> Vec<Entry<T>> {
    let item = front.item(table.key());
    if let Some(Item { value: DeValue::String(text), .. }) = item
        && text == "none"
    {
        return Vec::new();
    }
    let entries = item.map(|item| all(front, item, table, reader)).unwrap_or_default();
    let place = item.map_or(front.place(), |item| item.key);
    if entries.is_empty() && !matches!(item, Some(item) if !matches!(item.value, DeValue::Table(_))) {
        front.scribe.note(none_not_said(table, place));
    }
    entries
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
    rest.into_iter().filter_map(|(name, item)| one(front, name, item, table, reader)).collect()
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
    let thing = reader(&mut fields);
    fields.finish();
    Some(Entry { name: named(name), thing })
}

fn named(name: Spanned<String>) -> Spanned<Name> {
    Spanned::new(Name(name.value), name.span)
}

/// `jug = "measuring jug"` is short for `jug = { what = "measuring jug" }`.
fn only_what(what: &str, span: Span, base: usize) -> DeTable<'_> {
    let range = span.start.saturating_sub(base)..span.end.saturating_sub(base);
    let mut table = DeTable::new();
    let key = toml::Spanned::new(range.clone(), Cow::Borrowed("what"));
    table.insert(key, toml::Spanned::new(range, DeValue::String(Cow::Borrowed(what))));
    table
}
