//! What a slip in a TOML text touches: its own line or table, so that all others can still be read.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

use super::names::mended;

/// What could not be read because of slips.
#[derive(Debug, Default)]
pub struct Lost {
    /// The keys above the first table, and the first parts of the names of tables.
    keys: BTreeSet<String>,
    /// Entries of tables: the table, the name, and where it stands.
    entries: BTreeMap<String, BTreeMap<String, Range<usize>>>,
    /// Whether something was lost whose name cannot be told.
    is_unnamed: bool,
}

impl Lost {
    /// Whether nothing was lost.
    pub fn is_nothing(&self) -> bool {
        self.keys.is_empty() && !self.is_unnamed
    }

    /// Whether a slip touched what stands under a key of the whole text.
    pub fn touches(&self, key: &str) -> bool {
        self.is_unnamed || self.keys.contains(key)
    }

    /// Whether names may be missing that nobody can tell.
    pub const fn is_unnamed(&self) -> bool {
        self.is_unnamed
    }

    /// The entries of a table that slips touched.
    pub fn entries(&self, table: &str) -> impl Iterator<Item = (&str, Range<usize>)> {
        let entries = self.entries.get(table).into_iter().flatten();
        entries.map(|(name, place)| (name.as_str(), place.clone()))
    }

    fn add(&mut self, path: &[(String, Range<usize>)]) {
        match path {
            [] => self.is_unnamed = true,
            [(key, _)] => drop(self.keys.insert(key.clone())),
            [(key, _), (name, place), ..] => {
                self.keys.insert(key.clone());
                let entries = self.entries.entry(key.clone()).or_default();
                entries.entry(mended(name).unwrap_or_else(|| name.clone())).or_insert(place.clone());
            }
        }
    }
}

/// The lines of a text that begin something: a table, or the value of a key.
pub(super) struct Lines<'t> {
    text: &'t str,
    /// Where they begin.
    starts: Vec<usize>,
    /// Which of them begin a table.
    tables: Vec<usize>,
    /// Where each line begins.
    all: Vec<usize>,
}

impl<'t> Lines<'t> {
    pub(super) fn of(text: &'t str) -> Self {
        let mut lines = Self { text, starts: Vec::new(), tables: Vec::new(), all: Vec::new() };
        let mut at = 0;
        for line in text.split_inclusive('\n') {
            let bare = line.trim_start();
            let is_table = bare.starts_with('[') && line.starts_with('[');
            let is_row = bare.starts_with('{');
            if is_table {
                lines.tables.push(lines.starts.len());
            }
            if is_table || is_row || begins_a_key(bare) {
                lines.starts.push(at);
            }
            lines.all.push(at);
            at += line.len();
        }
        lines
    }

    /// Where the line of a byte begins.
    pub(super) fn line_of(&self, at: usize) -> usize {
        let line = self.all.partition_point(|start| *start <= at).checked_sub(1);
        line.and_then(|line| self.all.get(line)).copied().unwrap_or_default()
    }

    /// Notes down what a slip at `at` touches, and gives the bytes to be left out. Where it may have begun before its own
    /// line, the line before it goes as well.
    pub(super) fn touched(&self, at: usize, may_be_earlier: bool, lost: &mut Lost) -> Range<usize> {
        let own = self.starts.partition_point(|start| *start <= at).saturating_sub(1);
        let key_ends = self.line(own).find(['=', ']']).map_or(0, |key| key + self.start(own));
        let is_earlier = may_be_earlier && at <= key_ends && own > 0 && !self.is_table(own - 1);
        let first = if is_earlier { own - 1 } else { own };
        let table = self.table_of(first);
        let mut path = table.map(|table| self.path(table)).unwrap_or_default();
        let is_entry = path.len() > 1;
        if !is_entry && table != Some(first) {
            path.extend(self.path(first));
        }
        lost.add(&path);
        match table.filter(|table| is_entry || *table == first) {
            // The whole table: what is left of it would be judged as if it were all.
            Some(table) => self.start(table)..self.next_table(own),
            None => self.start(first)..self.start(own + 1),
        }
    }

    fn start(&self, place: usize) -> usize {
        self.starts.get(place).copied().unwrap_or(self.text.len())
    }

    fn is_table(&self, place: usize) -> bool {
        self.tables.binary_search(&place).is_ok()
    }

    /// The heading of the table that a line belongs to.
    fn table_of(&self, place: usize) -> Option<usize> {
        let table = self.tables.partition_point(|table| *table <= place).checked_sub(1)?;
        self.tables.get(table).copied()
    }

    fn next_table(&self, after: usize) -> usize {
        let next = self.tables.get(self.tables.partition_point(|table| *table <= after));
        next.map_or(self.text.len(), |table| self.start(*table))
    }

    fn line(&self, place: usize) -> &'t str {
        self.text.get(self.start(place)..).and_then(|rest| rest.lines().next()).unwrap_or_default()
    }

    /// The parts of a heading or of a key, as far as they can be told: `readings`, `gap`.
    fn path(&self, place: usize) -> Vec<(String, Range<usize>)> {
        let line = self.line(place);
        let head = line.split(['=', ']', '#']).next().unwrap_or_default();
        let mut at = self.start(place);
        let mut path = Vec::new();
        for part in head.split_inclusive('.') {
            let is_around = |letter: char| letter.is_whitespace() || "[]{}.\"'".contains(letter);
            let bare = part.trim_matches(is_around);
            let from = at + part.find(bare).unwrap_or_default();
            if !bare.is_empty() {
                path.push((bare.to_owned(), from..from + bare.len()));
            }
            at += part.len();
        }
        path
    }
}

/// Whether a line begins with a key and its equals sign.
fn begins_a_key(line: &str) -> bool {
    let is_of_key = |letter: char| letter.is_alphanumeric() || "_-.\"' ".contains(letter);
    let key = line.split('=').next().unwrap_or_default();
    let is_short = !key.trim().is_empty() && key.len() < line.len();
    is_short && key.chars().all(is_of_key) && !line.starts_with(['"', '\''])
}
