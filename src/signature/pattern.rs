//! OpenSSH's lists of patterns: `*` for anything, `?` for one letter, `!` before one that must not match.

/// Whether a text matches a list: some pattern of it, and none that begins with `!`.
pub(super) fn matches_list(list: &str, text: &str) -> bool {
    let (not, with): (Vec<&str>, Vec<&str>) =
        list.split(',').map(str::trim).partition(|one| one.starts_with('!'));
    let is_out = not.iter().any(|one| matches(&one.as_bytes()[1..], text.as_bytes()));
    !is_out && with.iter().any(|one| matches(one.as_bytes(), text.as_bytes()))
}

fn matches(pattern: &[u8], text: &[u8]) -> bool {
    let (mut at, mut pos) = (0, 0);
    // Where the last `*` stood, and how much of the text it had taken.
    let mut star: Option<(usize, usize)> = None;
    while pos < text.len() {
        match pattern.get(at) {
            Some(b'*') => {
                star = Some((at, pos));
                at += 1;
            }
            Some(letter) if *letter == b'?' || *letter == text[pos] => {
                at += 1;
                pos += 1;
            }
            _ => match star {
                Some((back, taken)) => {
                    star = Some((back, taken + 1));
                    (at, pos) = (back + 1, taken + 1);
                }
                None => return false,
            },
        }
    }
    pattern[at..].iter().all(|letter| *letter == b'*')
}
