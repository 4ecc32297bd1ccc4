//! Levels of use: those that sections name, and the words for each.

use super::codes::word_unknown;
use super::header::{LEVELS, level};
use crate::procedure::check::Proved;
use crate::procedure::declarable::{Called, Declarable};
use crate::procedure::{LevelOfUse, Name};
use crate::table::Fields;

/// `[levels]`: `routine = "reference"`.
impl Declarable for LevelOfUse {
    type Written = Self;

    fn read(fields: &mut Fields<'_, '_, '_>) -> Option<Self> {
        let word = fields.need_text("what", "reference")?;
        let level = level(&word.value);
        if level.is_none() {
            fields.scribe.note(word_unknown("level of use", &word, &LEVELS));
        }
        level
    }

    fn checked(_name: &Name, written: &Self, _proved: &Proved<'_>) -> Option<Self> {
        Some(*written)
    }

    fn called(&self) -> Called<'_> {
        Called::Nothing
    }
}

impl LevelOfUse {
    /// The word for it, as a file says it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Continuous => "continuous",
            Self::Reference => "reference",
            Self::Information => "information",
        }
    }

    /// What a person does with the text.
    pub const fn meaning(self) -> &'static str {
        match self {
            Self::Continuous => "read each step before doing it",
            Self::Reference => "read a section, do it, confirm it",
            Self::Information => "known by heart, at hand for questions",
        }
    }
}
