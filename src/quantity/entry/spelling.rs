//! One spelling for dashes, blanks, fraction bars and fractions, before anything is read.

/// Fractions that are one character.
const FRACTIONS: &[(char, &str)] = &[
    ('½', "1/2"),
    ('⅓', "1/3"),
    ('⅔', "2/3"),
    ('¼', "1/4"),
    ('¾', "3/4"),
    ('⅕', "1/5"),
    ('⅖', "2/5"),
    ('⅗', "3/5"),
    ('⅘', "4/5"),
    ('⅙', "1/6"),
    ('⅚', "5/6"),
    ('⅛', "1/8"),
    ('⅜', "3/8"),
    ('⅝', "5/8"),
    ('⅞', "7/8"),
];

/// One spelling for what keyboards write in several: `-` for every dash, one blank for any white space, `/` for
/// every fraction bar, `1/2` for `½`.
pub(super) fn plain(text: &str) -> String {
    let mut out = String::with_capacity(text.len() + 8);
    for char in text.chars() {
        match char {
            '−' | '–' | '‒' | '‐' | '‑' => out.push('-'),
            '⁄' | '∕' => out.push('/'),
            _ if char.is_whitespace() => out.push(' '),
            _ => match FRACTIONS.iter().find(|(fraction, _)| *fraction == char) {
                Some((_, fraction)) => push_fraction(&mut out, fraction),
                None => out.push(char),
            },
        }
    }
    out.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Apart from the digits around it, so that `5½` is not fifty-one halves.
fn push_fraction(out: &mut String, fraction: &str) {
    if out.ends_with(|char: char| char.is_ascii_digit()) {
        out.push(' ');
    }
    out.push_str(fraction);
    out.push(' ');
}
