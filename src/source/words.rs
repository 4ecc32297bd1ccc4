//! Where a row of text may end, and how much of a sentence a list shows.

use textwrap::core::{Word, display_width};

/// The words of a line, each with the spaces after it.
///
/// A row may end at a space, never at a no-break space; and between two letters that take two columns each (the
/// ideographs, kana and hangul), for those are written without spaces and a long sentence of them fills its rows.
/// Their punctuation stays with the letters on both sides of it.
/// Source: Unicode Standard Annexes #11 (what is wide) and #14 (class ID: a break on both sides).
///
/// ```
/// let words = |line| bayhand::source::find_words(line).map(|word| word.word).collect::<Vec<_>>();
/// assert_eq!(words("2.5\u{a0}L/min at least"), ["2.5\u{a0}L/min", "at", "least"]);
/// assert_eq!(words("温度計。次"), ["温", "度", "計。次"]);
/// ```
pub fn find_words(line: &str) -> Box<dyn Iterator<Item = Word<'_>> + '_> {
    let pairs = line.char_indices().zip(line.chars().skip(1));
    let ends = pairs.filter(|((_, before), after)| may_end_between(*before, *after));
    let ends = ends.map(|((at, before), _)| at + before.len_utf8());
    let mut start = 0;
    Box::new(ends.chain([line.len()]).map(move |end| {
        let word = Word::from(line.get(start..end).unwrap_or_default());
        start = end;
        word
    }))
}

fn may_end_between(before: char, after: char) -> bool {
    (before == ' ' && after != ' ') || (is_wide_letter(before) && is_wide_letter(after))
}

fn is_wide_letter(letter: char) -> bool {
    letter.is_alphabetic() && display_width(letter.encode_utf8(&mut [0; 4])) == 2
}

/// The first words of a text: up to its first pause, and no more than so many characters.
///
/// ```
/// assert_eq!(bayhand::source::first_words("Drain it: 2 L. Wait.", 60), "Drain it");
/// assert_eq!(bayhand::source::first_words("Set the vehicle on its stands", 15), "Set the ...");
/// ```
pub fn first_words(text: &str, longest: usize) -> String {
    let pause = [". ", ": ", "; "].iter().filter_map(|pause| text.find(pause)).min();
    let clause = text.get(..pause.unwrap_or(text.len())).unwrap_or(text);
    if clause.chars().count() <= longest {
        return clause.to_owned();
    }
    let cut: String = clause.chars().take(longest).collect();
    format!("{} ...", cut.rsplit_once(' ').map_or(cut.as_str(), |(whole, _)| whole))
}
