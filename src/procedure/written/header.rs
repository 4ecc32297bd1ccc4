use super::codes::word_unknown;
use crate::procedure::{Header, LevelOfUse};
use crate::table::{Fields, duration, format};

pub(super) const LEVELS: [&str; 3] = ["continuous", "reference", "information"];

/// The keys above the first table.
pub(super) fn header(front: &mut Fields<'_, '_, '_>) -> Option<Header> {
    format(front);
    let revision = front.need_text("revision", "A");
    let date = front.need_date("date");
    let author = front.need_text("author", "your name");
    let scope = front.need_text("scope", "which vehicles it is for");
    let level = level_of_use(front);
    let time = duration(front, "time");
    Some(Header {
        revision: revision?.value,
        date: date?.value,
        author: author?.value,
        scope: scope?.value,
        level_of_use: level?,
        time: time.map(|time| time.value),
    })
}

fn level_of_use(front: &mut Fields<'_, '_, '_>) -> Option<LevelOfUse> {
    let word = front.need_text("level_of_use", "continuous")?;
    let level = level(&word.value);
    if level.is_none() {
        front.scribe.note(word_unknown("level of use", &word, &LEVELS));
    }
    level
}

/// The level of use of that name.
pub(super) fn level(word: &str) -> Option<LevelOfUse> {
    match word {
        "continuous" => Some(LevelOfUse::Continuous),
        "reference" => Some(LevelOfUse::Reference),
        "information" => Some(LevelOfUse::Information),
        _ => None,
    }
}
