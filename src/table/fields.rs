//! The keys of one table, asked for one by one; what nobody asked for is reported.

use std::collections::BTreeSet;

use jiff::civil::Date;
use toml::de::{DeArray, DeTable, DeValue};

use super::Scribe;
use super::codes::{FORMULA_ESCAPED, KEY_MISSING, KEY_UNKNOWN, TEXT_EMPTY, VALUE_TYPE};
use super::kinds::{Wording, described};
use crate::source::{Diagnostic, Span, Spanned, suggest};

/// One value and the key it stands under.
#[derive(Clone, Copy, Debug)]
pub struct Item<'d> {
    /// The key.
    pub key: Span,
    /// The value.
    pub value: &'d DeValue<'d>,
    /// Where the value stands.
    pub span: Span,
}

/// The keys of one table, asked for one by one; [`Fields::finish`] reports those nobody asked for.
#[derive(Debug)]
pub struct Fields<'d, 's, 't> {
    table: &'d DeTable<'d>,
    owner: String,
    place: Span,
    asked: Vec<&'static str>,
    /// Whether it is the whole text, parts of which slips may have touched.
    is_whole: bool,
    /// Where mistakes are noted.
    pub scribe: &'s mut Scribe<'t>,
}

impl<'d, 's, 't> Fields<'d, 's, 't> {
    /// The keys of `table`, which messages call `owner` and point at `place`.
    pub fn new(
        table: &'d DeTable<'d>,
        owner: impl Into<String>,
        place: Span,
        scribe: &'s mut Scribe<'t>,
    ) -> Self {
        Self { table, owner: owner.into(), place, asked: Vec::new(), is_whole: false, scribe }
    }

    /// The same of a whole text: of what a slip touched it is not said that it is missing.
    #[must_use]
    pub fn whole(self) -> Self {
        Self { is_whole: true, ..self }
    }

    /// Whether a slip touched what stands under a key of the whole text.
    pub fn is_lost(&self, key: &str) -> bool {
        self.is_whole && self.scribe.lost.touches(key)
    }

    /// What messages call this table.
    pub fn owner(&self) -> &str {
        &self.owner
    }

    /// Where messages about the table as a whole point.
    pub const fn place(&self) -> Span {
        self.place
    }

    /// The value under a key, of any type.
    pub fn item(&mut self, key: &'static str) -> Option<Item<'d>> {
        self.asked.push(key);
        let (name, value) = self.table.get_key_value(key)?;
        Some(Item {
            key: self.scribe.span(&name.span()),
            value: value.get_ref(),
            span: self.scribe.span(&value.span()),
        })
    }

    /// A text that may be left out.
    pub fn text(&mut self, key: &'static str) -> Option<Spanned<String>> {
        let item = self.item(key)?;
        self.text_of(key, item)
    }

    /// The text of a value under a key that the file chose.
    pub fn text_of(&mut self, key: &str, item: Item<'_>) -> Option<Spanned<String>> {
        let DeValue::String(text) = item.value else {
            self.wrong_type(key, item, "a text in quotes");
            return None;
        };
        self.words(key, text, item.span)
    }

    /// A text that must be there; `example` is a value that could be typed.
    pub fn need_text(&mut self, key: &'static str, example: &str) -> Option<Spanned<String>> {
        if !self.table.contains_key(key) {
            self.missing(key, &format!("\"{example}\""));
        }
        self.text(key)
    }

    fn words(&mut self, key: &str, text: &str, span: Span) -> Option<Spanned<String>> {
        if text.trim().is_empty() {
            let headline = format!("`{key}` of {} is empty", self.owner);
            let diagnostic = Diagnostic::error(&TEXT_EMPTY, headline).at(span, "no words here");
            self.scribe.note(diagnostic.help("write the words, or take the key out where it is optional"));
            return None;
        }
        Some(self.scribe.cleaned(text, span))
    }

    /// A list of texts; empty when it is left out or not a list.
    pub fn texts(&mut self, key: &'static str) -> Option<Spanned<Vec<Spanned<String>>>> {
        let item = self.item(key)?;
        let DeValue::Array(list) = item.value else {
            self.wrong_type(key, item, "a list of texts in brackets, `[\"one\", \"two\"]`");
            return None;
        };
        Some(Spanned::new(self.each_text(key, list, item.key), item.span))
    }

    fn each_text(
        &mut self,
        key: &'static str,
        list: &'d DeArray<'d>,
        key_span: Span,
    ) -> Vec<Spanned<String>> {
        let mut texts = Vec::new();
        for element in list {
            let span = self.scribe.span(&element.span());
            let value = element.get_ref();
            match value {
                DeValue::String(text) => texts.extend(self.words(key, text, span)),
                _ => self.wrong_type(key, Item { key: key_span, value, span }, "a text in quotes"),
            }
        }
        texts
    }

    /// A mark that is only ever `true`; where it stands.
    pub fn mark(&mut self, key: &'static str) -> Option<Span> {
        let item = self.item(key)?;
        if !matches!(item.value, DeValue::Boolean(true)) {
            self.wrong_type(key, item, "`true`, or the key left out");
            return None;
        }
        Some(item.key)
    }

    /// A whole number from 1 to `most`, or `default` where it is left out; nothing where it is something else.
    pub fn count(&mut self, key: &'static str, most: usize, default: usize) -> Option<usize> {
        let Some(item) = self.item(key) else {
            return Some(default);
        };
        let number = match item.value {
            DeValue::Integer(number) if number.radix() == 10 => number.as_str().parse().ok(),
            _ => None,
        };
        let count = number.filter(|count| (1..=most).contains(count));
        if count.is_none() {
            self.wrong_type(key, item, &format!("a whole number from 1 to {most}"));
        }
        count
    }

    /// A date without a time.
    pub fn date(&mut self, key: &'static str) -> Option<Spanned<Date>> {
        let item = self.item(key)?;
        let date = match item.value {
            DeValue::Datetime(datetime) if datetime.time.is_none() => datetime.date,
            _ => None,
        };
        let date = date.and_then(civil);
        if date.is_none() {
            self.wrong_type(key, item, "a date without quotes, `2026-11-25`");
        }
        Some(Spanned::new(date?, item.span))
    }

    /// A date that must be there.
    pub fn need_date(&mut self, key: &'static str) -> Option<Spanned<Date>> {
        if !self.table.contains_key(key) {
            self.missing(key, "2026-11-25");
        }
        self.date(key)
    }

    /// A formula: a text, or a number without a unit.
    pub fn formula(&mut self, key: &'static str) -> Option<Wording> {
        let item = self.item(key)?;
        match item.value {
            DeValue::Float(number) => Some(bare_number(number.as_str(), item.span)),
            DeValue::Integer(number) if number.radix() == 10 => Some(bare_number(number.as_str(), item.span)),
            DeValue::String(text) => self.verbatim(key, text, item.span),
            _ => {
                self.wrong_type(key, item, "a number, or a formula in quotes");
                None
            }
        }
    }

    /// A text whose words stand in the file as they are read, so that offsets into it stay true.
    pub fn verbatim(&mut self, key: &str, text: &str, span: Span) -> Option<Wording> {
        self.words(key, text, span)?;
        let quotes = self.scribe.raw(span).find(text);
        let Some(quotes) = quotes else {
            let headline = format!("`{key}` of {} is written with escapes", self.owner);
            let diagnostic = Diagnostic::error(&FORMULA_ESCAPED, headline).at(span, "not as it is read");
            self.scribe.note(diagnostic.help("write it between single quotes, without backslashes"));
            return None;
        };
        let start = span.start + quotes;
        Some(Wording::Formula(Spanned::new(text.to_owned(), Span::new(start, start + text.len()))))
    }

    /// Says that a key must be there.
    pub fn missing(&mut self, key: &str, example: &str) {
        if self.is_lost(key) {
            return;
        }
        let headline = format!("{} does not say `{key}`", self.owner);
        let diagnostic =
            Diagnostic::error(&KEY_MISSING, headline).at(self.place, format!("`{key}` is missing"));
        self.scribe.note(diagnostic.help(format!("add a line such as `{key} = {example}`")));
    }

    /// Says that a value is of the wrong type.
    pub fn wrong_type(&mut self, key: &str, item: Item<'_>, wanted: &str) {
        let headline = format!("`{key}` of {} has the wrong type of value", self.owner);
        let diagnostic = Diagnostic::error(&VALUE_TYPE, headline);
        let diagnostic = diagnostic.at(item.span, format!("this is {}", described(item.value)));
        self.scribe.note(diagnostic.help(format!("write {wanted}")));
    }

    /// The keys and values that were not asked for, in the order of the file.
    pub fn rest(&self) -> Vec<(Spanned<String>, Item<'d>)> {
        let mut rest: Vec<_> =
            self.table.iter().filter(|(name, _)| !self.asked.contains(&name.get_ref().as_ref())).collect();
        rest.sort_by_key(|(name, _)| name.span().start);
        let entry = |(name, value): (&toml::Spanned<_>, &'d toml::Spanned<DeValue<'d>>)| {
            let key = self.scribe.span(&name.span());
            let name: &std::borrow::Cow<'_, str> = name.get_ref();
            let span = self.scribe.span(&value.span());
            (Spanned::new(name.to_string(), key), Item { key, value: value.get_ref(), span })
        };
        rest.into_iter().map(entry).collect()
    }

    /// Reports every key that was not asked for.
    pub fn finish(self) {
        for (name, _) in self.rest() {
            let known = suggest::nearest(&name.value, self.asked.iter().copied());
            let headline = format!("{} has no key `{}`", self.owner, name.value);
            let diagnostic = Diagnostic::error(&KEY_UNKNOWN, headline).at(name.span, "not known here");
            let diagnostic = match known {
                Some(known) => diagnostic.help(format!("did you mean `{known}`?")).replace(name.span, known),
                None => diagnostic.help(format!("known here: {}", list(&self.asked))),
            };
            self.scribe.note(diagnostic);
        }
    }
}

fn bare_number(text: &str, span: Span) -> Wording {
    let digits = text.chars().filter(|&digit| digit != '_' && digit != '+').collect();
    Wording::Number(Spanned::new(digits, span))
}

fn list(keys: &[&str]) -> String {
    let mut seen = BTreeSet::new();
    let once = keys.iter().filter(|key| seen.insert(**key));
    let keys: Vec<_> = once.map(|key| format!("`{key}`")).collect();
    keys.join(", ")
}

fn civil(date: toml::value::Date) -> Option<Date> {
    let year = i16::try_from(date.year).ok()?;
    Date::new(year, i8::try_from(date.month).ok()?, i8::try_from(date.day).ok()?).ok()
}
