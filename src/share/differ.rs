//! What differs between a file that is there and one that came, in a few lines.

/// The most lines that are told of one file.
const MOST_LINES: usize = 12;

/// What differs, from the first line that does to the last: `-` before what is there, `+` before what came.
///
/// ```
/// use bayhand::share::differences;
///
/// let lines = differences(b"one\ntwo\n", b"one\nthree\n");
/// assert_eq!(lines, ["line 2:", "- two", "+ three"]);
/// ```
pub fn differences(there: &[u8], came: &[u8]) -> Vec<String> {
    let (Ok(old), Ok(new)) = (std::str::from_utf8(there), std::str::from_utf8(came)) else {
        return vec![format!("{} bytes are there, {} came; it is no text", there.len(), came.len())];
    };
    if old.replace('\r', "") == new.replace('\r', "") {
        return vec!["only the ends of the lines differ".to_owned()];
    }
    let (old, new): (Vec<&str>, Vec<&str>) = (old.lines().collect(), new.lines().collect());
    let alike = |pairs: &mut dyn Iterator<Item = (&&str, &&str)>| {
        pairs.take_while(|(one, other)| one == other).count()
    };
    let before = alike(&mut old.iter().zip(&new));
    let left = old.len().min(new.len()) - before;
    let after = alike(&mut old.iter().rev().zip(new.iter().rev()).take(left));
    let gone = old.get(before..old.len() - after).unwrap_or_default();
    let arrived = new.get(before..new.len() - after).unwrap_or_default();
    let mut lines = changes(gone, arrived, before + 1);
    if lines.len() > MOST_LINES {
        let more = lines.split_off(MOST_LINES).iter().filter(|line| line.starts_with(['-', '+'])).count();
        lines.push(format!("and {more} lines more"));
    }
    lines
}

/// The most lines of both texts multiplied that are set side by side; of more the whole stretch is told.
const MOST_PAIRS: usize = 4_000_000;

/// The changes of a stretch by its longest common lines, with the number of the line in front of each.
fn changes(old: &[&str], new: &[&str], first: usize) -> Vec<String> {
    let width = new.len() + 1;
    let mut common = vec![0_usize; if old.len() * width > MOST_PAIRS { 0 } else { (old.len() + 1) * width }];
    let known =
        |common: &[usize], at: usize, to: usize| common.get(at * width + to).copied().unwrap_or_default();
    for at in (0..old.len()).rev() {
        for to in (0..new.len()).rev() {
            let best = if old.get(at) == new.get(to) {
                known(&common, at + 1, to + 1) + 1
            } else {
                known(&common, at + 1, to).max(known(&common, at, to + 1))
            };
            if let Some(place) = common.get_mut(at * width + to) {
                *place = best;
            }
        }
    }
    let (mut at, mut to, mut is_apart) = (0, 0, true);
    let mut lines = Vec::new();
    while at < old.len() || to < new.len() {
        let (here, there) = (old.get(at), new.get(to));
        if here == there && !common.is_empty() {
            (at, to, is_apart) = (at + 1, to + 1, true);
            continue;
        }
        if std::mem::take(&mut is_apart) {
            lines.push(format!("line {}:", first + at));
        }
        let is_gone =
            there.is_none() || (here.is_some() && known(&common, at + 1, to) >= known(&common, at, to + 1));
        let (sign, line) = if is_gone { ('-', here) } else { ('+', there) };
        lines.push(format!("{sign} {}", line.copied().unwrap_or_default()));
        (at, to) = if is_gone { (at + 1, to) } else { (at, to + 1) };
    }
    lines
}
