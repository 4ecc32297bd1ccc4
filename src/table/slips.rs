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

/// The lines of a text, and which of them begin something.
pub(super) struct Lines<'t> {
    text: &'t str,
    /// Where each line begins.
    starts: Vec<usize>,
    /// The lines that begin a table, and those that begin anything: a table, or the value of a key. All others go on with
    /// what the line before them began: rows of a list, text of several lines.
    tables: Vec<usize>,
    heads: Vec<usize>,
}

impl<'t> Lines<'t> {
    pub(super) fn of(text: &'t str) -> Self {
        let mut lines = Self { text, starts: Vec::new(), tables: Vec::new(), heads: Vec::new() };
        let mut at = 0;
        for line in text.split_inclusive('\n') {
            let is_table = line.starts_with('[');
            if is_table {
                lines.tables.push(lines.starts.len());
            }
            if is_table || begins_a_key(line.trim_start()) {
                lines.heads.push(lines.starts.len());
            }
            lines.starts.push(at);
            at += line.len();
        }
        lines
    }

    /// Where the line of a byte begins.
    pub(super) fn line_of(&self, at: usize) -> usize {
        self.start(self.at(at))
    }

    /// Notes down what a slip at `at` touches, and gives the bytes to be left out. Where it may have begun before its own
    /// line, what the lines before began goes as well.
    pub(super) fn touched(&self, at: usize, may_be_earlier: bool, lost: &mut Lost) -> Range<usize> {
        let own = self.at(at);
        let own_head = last(&self.heads, own);
        let is_earlier = may_be_earlier && own_head == Some(own) && at <= self.key_end(own);
        let earlier = own.checked_sub(1).filter(|_| is_earlier).and_then(|before| last(&self.heads, before));
        let earlier = earlier.filter(|head| self.tables.binary_search(head).is_err());
        let head = earlier.or(own_head).unwrap_or(own);
        let table = last(&self.tables, head);
        let mut path = table.map(|table| self.path(table)).unwrap_or_default();
        let is_entry = path.len() > 1;
        if !is_entry && table != Some(head) {
            path.extend(self.path(head));
        }
        lost.add(&path);
        match table.filter(|table| is_entry || *table == head) {
            // The whole table: what is left of it would be judged as if it were all.
            Some(table) => self.start(table)..self.start(self.next(&self.tables, head)),
            None if head < own && earlier.is_none() => self.start(own)..self.start(own + 1),
            None => self.start(head)..self.start(self.next(&self.heads, head)),
        }
    }

    fn at(&self, at: usize) -> usize {
        self.starts.partition_point(|start| *start <= at).saturating_sub(1)
    }

    fn start(&self, line: usize) -> usize {
        self.starts.get(line).copied().unwrap_or(self.text.len())
    }

    /// The first of these lines after another one; past the last line where there is none.
    fn next(&self, lines: &[usize], after: usize) -> usize {
        let next = lines.get(lines.partition_point(|line| *line <= after));
        next.copied().unwrap_or(self.starts.len())
    }

    fn line(&self, line: usize) -> &'t str {
        self.text.get(self.start(line)..self.start(line + 1)).unwrap_or_default()
    }

    fn key_end(&self, line: usize) -> usize {
        self.line(line).find(['=', ']']).map_or(0, |end| end + self.start(line))
    }

    /// The parts of a heading or of a key, as far as they can be told: `readings`, `gap`.
    fn path(&self, line: usize) -> Vec<(String, Range<usize>)> {
        let head = self.line(line).split(['=', ']', '#']).next().unwrap_or_default();
        let mut at = self.start(line);
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

/// The last of these lines that is not below another one.
fn last(lines: &[usize], line: usize) -> Option<usize> {
    let place = lines.partition_point(|other| *other <= line).checked_sub(1)?;
    lines.get(place).copied()
}

/// Whether a line begins with a key and its equals sign, or with one word and a text: an equals sign that was left out.
fn begins_a_key(line: &str) -> bool {
    let is_of_key = |letter: char| letter.is_alphanumeric() || "_-. ".contains(letter);
    let key = line.split(['=', '"', '\'']).next().unwrap_or_default();
    !key.trim().is_empty() && key.len() < line.len() && key.chars().all(is_of_key)
}
