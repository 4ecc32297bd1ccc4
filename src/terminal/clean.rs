//! The one exit for words: nothing leaves for a terminal without passing here.

use std::borrow::Cow;

use crate::source;

/// Makes control and direction characters visible and harmless. Line ends stay; a tab becomes a space,
/// because nobody knows how wide it is.
pub(super) fn clean(words: &str) -> Cow<'_, str> {
    let clean = source::clean(words);
    if clean.contains('\t') { Cow::Owned(clean.replace('\t', " ")) } else { clean }
}

/// The same for words that must stay on one line: prompts, labels, items of a list.
pub(super) fn clean_line(words: &str) -> String {
    clean(words).replace('\n', " ")
}
