//! The keys above the first table: revision, author, scope, level of use, what must be there.

use toml::de::DeValue;

use super::codes::{NONE_NOT_SAID, word_unknown};
use crate::procedure::{Header, LevelOfUse};
use crate::source::Diagnostic;
use crate::table::{Fields, Item, duration, format};

pub(super) const LEVELS: [&str; 3] = ["continuous", "reference", "information"];

/// The keys above the first table.
pub(in crate::procedure) fn header(front: &mut Fields<'_, '_, '_>) -> Option<Header> {
    format(front);
    let revision = front.need_text("revision", "A");
    let date = front.need_date("date");
    let author = front.need_text("author", "your name");
    let scope = front.need_text("scope", "which vehicles it is for");
    let level = level_of_use(front);
    let time = duration(front, "time");
    let odometer = front.mark("odometer").is_some();
    let required = statements(front, &REQUIRED);
    let close_up = statements(front, &CLOSE_UP);
    Some(Header {
        revision: revision?.value,
        date: date?.value,
        author: author?.value,
        scope: scope?.value,
        level_of_use: level?,
        time: time.map(|time| time.value),
        odometer,
        required,
        close_up,
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

/// A list of statements, and the words in which its absence is reported.
struct Statements {
    key: &'static str,
    /// What the procedure does not say when the list is missing.
    what: &'static str,
    /// A statement that could be typed.
    example: &'static str,
}

const REQUIRED: Statements = Statements {
    key: "required",
    what: "must be true before the job",
    example: "the vehicle is parked on level ground",
};

const CLOSE_UP: Statements =
    Statements { key: "close_up", what: "must be true after the job", example: "the drain plug is tight" };

/// A list of statements that must be there, or be declared `"none"`.
fn statements(front: &mut Fields<'_, '_, '_>, wanted: &Statements) -> Vec<String> {
    let Statements { key, what, example } = *wanted;
    let item = front.item(key);
    if matches!(item, Some(Item { value: DeValue::String(text), .. }) if text == "none") {
        return Vec::new();
    }
    let statements = item.and_then(|_| front.texts(key)).map(|list| list.value).unwrap_or_default();
    let is_list = item.is_none_or(|item| matches!(item.value, DeValue::Array(_)));
    if statements.is_empty() && is_list && !front.is_lost(key) {
        let place = item.map_or(front.place(), |item| item.key);
        let headline = format!("the procedure does not say what {what}");
        let diagnostic = Diagnostic::error(&NONE_NOT_SAID, headline).at(place, "nothing stated");
        let help = format!("write `{key} = [\"{example}\"]`, or `{key} = \"none\"`");
        front.scribe.note(diagnostic.help(help));
    }
    statements.into_iter().map(|statement| statement.value).collect()
}
