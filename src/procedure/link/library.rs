//! Where the text of a linked procedure is found by its address.

use std::collections::BTreeMap;

use crate::source::SourceText;

/// Where the texts of linked procedures come from.
///
/// An address is a path with `/` between the folders, seen from the folder of the first procedure:
/// `cooler/flush.md`, `../flush.md`.
pub trait Library {
    /// The text at an address.
    fn find(&self, address: &str) -> Result<SourceText, NotFound>;
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
