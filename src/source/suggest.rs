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
    let wanted = Wanted::of(word);
    let mut near: Option<(usize, &str)> = None;
    let (mut longer, mut is_only) = (None, true);
    for candidate in candidates {
        if let Some(distance) = wanted.distance_to(candidate) {
            let this = (distance, candidate);
            near = Some(near.map_or(this, |best| best.min(this)));
        }
        if wanted.begins(candidate) {
            is_only = longer.replace(candidate).is_none();
        }
    }
    near.map(|(_, candidate)| candidate).or(longer.filter(|_| is_only && wanted.letters >= 3))
}

/// A word in small letters, and how far from it a candidate may be.
struct Wanted {
    lower: String,
    letters: usize,
    allowed: usize,
    counts: Counts,
}

impl Wanted {
    fn of(word: &str) -> Self {
        let lower = word.to_lowercase();
        let letters = lower.chars().count();
        let allowed = if letters <= 2 { 0 } else { (letters / 3).max(1) };
        Self { letters, allowed, counts: Counts::of(&lower), lower }
    }

    /// How many mistakes lie between, where they are few enough. Most candidates are told apart by their letters alone, in
    /// whatever order those stand: that costs little.
    fn distance_to(&self, candidate: &str) -> Option<usize> {
        if Counts::of(candidate).apart(&self.counts) > 2 * self.allowed {
            return None;
        }
        let distance = strsim::damerau_levenshtein(&self.lower, &candidate.to_lowercase());
        (distance <= self.allowed).then_some(distance)
    }

    fn begins(&self, candidate: &str) -> bool {
        let mut rest = candidate.chars().flat_map(char::to_lowercase);
        self.lower.chars().all(|letter| rest.next() == Some(letter))
    }
}

/// How often each letter occurs in a word, upper and lower case together. Letters that are none of ASCII share their places,
/// which makes words seem nearer than they are and never further.
struct Counts([u8; 64]);

impl Counts {
    fn of(word: &str) -> Self {
        let mut counts = [0_u8; 64];
        for letter in word.chars().flat_map(char::to_lowercase) {
            let place = &mut counts[letter as usize % 64];
            *place = place.saturating_add(1);
        }
        Self(counts)
    }

    /// The sum of differences: a letter too many or too few makes one, another letter two, swapped letters none.
    fn apart(&self, other: &Self) -> usize {
        self.0.iter().zip(other.0).map(|(one, other)| usize::from(one.abs_diff(other))).sum()
    }
}
