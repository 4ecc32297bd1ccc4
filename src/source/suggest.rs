//! "Did you mean": the nearest of the names there are.

/// The candidate that `word` was most likely meant to be; none where nothing is near enough.
///
/// Upper and lower case count as the same letter, two swapped letters as one mistake. A third of the word may
/// be wrong, and a word that stands at the front of exactly one candidate is taken for it.
///
/// ```
/// use bayhand::source::suggest::nearest;
/// assert_eq!(nearest("pan_tmep", ["pan_temp", "supply"]), Some("pan_temp"));
/// assert_eq!(nearest("flow", ["pan_temp", "supply"]), None);
/// ```
pub fn nearest<'a>(word: &str, candidates: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let lower = word.to_lowercase();
    let candidates: Vec<&str> = candidates.into_iter().collect();
    by_distance(&lower, &candidates).or_else(|| by_beginning(&lower, &candidates))
}

fn by_distance<'a>(lower: &str, candidates: &[&'a str]) -> Option<&'a str> {
    let letters = lower.chars().count();
    let allowed = if letters <= 2 { 0 } else { (letters / 3).max(1) };
    let near = candidates.iter().map(|&candidate| (distance(lower, candidate), candidate));
    let near = near.filter(|&(distance, _)| distance <= allowed);
    near.min_by_key(|&(distance, candidate)| (distance, candidate)).map(|(_, candidate)| candidate)
}

fn distance(lower: &str, candidate: &str) -> usize {
    strsim::damerau_levenshtein(lower, &candidate.to_lowercase())
}

fn by_beginning<'a>(lower: &str, candidates: &[&'a str]) -> Option<&'a str> {
    let mut longer = candidates.iter().filter(|candidate| candidate.to_lowercase().starts_with(lower));
    match (longer.next(), longer.next()) {
        (Some(only), None) if lower.chars().count() >= 3 => Some(only),
        _ => None,
    }
}
