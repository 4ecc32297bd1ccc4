//! What tells passes from each other that stand side by side: the item of each, out of the words for it.

/// The items among the words for passes: `left` of `pass 2 of 3 (left)` and of `pass 3 (left, 2 of 3)`; none where passes
/// only replace each other.
pub(super) fn item(pass: &str) -> Option<String> {
    let (mut items, mut depth, mut word) = (Vec::new(), 0_u32, String::new());
    for letter in pass.chars() {
        match letter {
            ')' if depth == 1 => {
                items.extend(without_number(&word));
                (depth, word) = (0, String::new());
            }
            '(' if depth == 0 => depth = 1,
            _ if depth == 0 => {}
            letter => {
                depth = match letter {
                    '(' => depth + 1,
                    ')' => depth - 1,
                    _ => depth,
                };
                word.push(letter);
            }
        }
    }
    (!items.is_empty()).then(|| items.join(", "))
}

/// Without the `2 of 3` that stands behind an item where a pass before it did not count.
fn without_number(word: &str) -> Option<String> {
    let is_number = |words: &str| {
        words
            .split_once(" of ")
            .is_some_and(|(one, all)| [one, all].iter().all(|it| it.parse::<u32>().is_ok()))
    };
    match word.rsplit_once(", ") {
        Some((item, number)) if is_number(number) => Some(item.to_owned()),
        _ if is_number(word) => None,
        _ => Some(word.to_owned()),
    }
}
