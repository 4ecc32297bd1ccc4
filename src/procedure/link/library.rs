//! Where the text of a linked procedure is found by its address.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::address::id_of;
use crate::procedure::alone::{Alone, read_alone};
use crate::source::SourceText;

/// Where the texts of linked procedures come from.
///
/// An address is a path with `/` between the folders, seen from the folder of the first procedure:
/// `cooler/flush.md`, `../flush.md`.
pub trait Library {
    /// The text at an address.
    fn find(&self, address: &str) -> Result<SourceText, NotFound>;

    /// Whether the picture at an address is there and can be shown. A library of texts alone knows of none that is not.
    fn picture(&self, _address: &str) -> Result<(), NotFound> {
        Ok(())
    }

    /// The text at an address, read by itself. Who is asked for the same text again and again can keep it.
    fn read(&self, address: &str) -> Result<Arc<ReadText>, NotFound> {
        Ok(Arc::new(ReadText::of(self.find(address)?, id_of(address))))
    }
}

/// The text of a procedure, read and checked by itself: what it links to is still to be followed.
#[derive(Debug)]
pub struct ReadText {
    text: SourceText,
    alone: Alone,
}

impl ReadText {
    /// Reads a text; `id` is what others call it: its file's name without the ending.
    pub fn of(text: SourceText, id: &str) -> Self {
        let alone = read_alone(&text, id);
        Self { text, alone }
    }

    /// The text itself.
    pub const fn text(&self) -> &SourceText {
        &self.text
    }

    /// What was made of it; a copy where others still need it.
    pub(super) fn take(read: Arc<Self>) -> (SourceText, Alone) {
        match Arc::try_unwrap(read) {
            Ok(Self { text, alone }) => (text, alone),
            Err(shared) => (shared.text.clone(), shared.alone.clone()),
        }
    }
}

/// Why there is no text at an address.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotFound {
    /// In words.
    pub why: String,
}

/// Texts at hand, by address; an empty one where nothing is linked.
#[derive(Clone, Debug, Default)]
pub struct Shelf(BTreeMap<String, SourceText>);

impl Library for Shelf {
    fn find(&self, address: &str) -> Result<SourceText, NotFound> {
        let none = || NotFound { why: format!("there is no `{address}`") };
        self.0.get(address).cloned().ok_or_else(none)
    }
}

impl FromIterator<(String, SourceText)> for Shelf {
    fn from_iter<I: IntoIterator<Item = (String, SourceText)>>(texts: I) -> Self {
        Self(texts.into_iter().collect())
    }
}
