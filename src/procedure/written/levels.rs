//! Levels of use that sections name.

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
