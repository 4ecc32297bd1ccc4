//! Numbers of steps that a text speaks of: `step 4.2`, `steps 6 through 8`.

use crate::quantity::Unit;
use crate::source::{Span, Spanned};

/// What may stand between two numbers of steps.
const JOINTS: [&str; 8] = ["through", "to", "and", "or", "until", "-", "\u{2013}", ","];

/// Words that are units too, and far more often are what they look like.
const WORDS: [&str; 4] = ["a", "at", "in", "as"];

/// Steps that are spoken of by their numbers.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StepNumbers {
    /// Where, from the word to the last number.
    pub span: Span,
    /// The numbers.
    pub numbers: Vec<Spanned<String>>,
}

impl StepNumbers {
    /// The same, `by` bytes further on.
    #[must_use]
    pub fn shifted(self, by: usize) -> Self {
        let moved = |number: Spanned<String>| Spanned::new(number.value, number.span.shifted(by));
        Self { span: self.span.shifted(by), numbers: self.numbers.into_iter().map(moved).collect() }
    }
}

/// Every place in a text that speaks of steps by number.
pub fn step_numbers(text: &str) -> Vec<StepNumbers> {
    if !speaks_of_steps(text) {
        return Vec::new();
    }
    let words = words(text);
    let mut found = Vec::new();
    let mut at = 0;
    while at < words.len() {
        let numbers = if is_step(words[at].value) { numbers(&words[at + 1..]) } else { Vec::new() };
        if let Some(last) = numbers.last() {
            found.push(StepNumbers { span: words[at].span.to(last.span), numbers });
        }
        at += 1;
    }
    found
}

/// Whether it is worth while to look at a text word by word; most speak of no step at all.
pub(super) fn speaks_of_steps(text: &str) -> bool {
    text.contains("tep")
}

/// `STEP 4` in capitals is what a display shows.
fn is_step(word: &str) -> bool {
    matches!(word, "step" | "Step" | "steps" | "Steps")
}

/// The numbers that follow the word, with joints between them; none where a measure follows it: `a step 3 mm high`.
fn numbers(words: &[Spanned<&str>]) -> Vec<Spanned<String>> {
    let mut numbers = Vec::new();
    let mut words = words.iter().peekable();
    while let Some(number) = words.next_if(|word| is_number(word.value)) {
        numbers.push(Spanned::new(number.value.to_owned(), number.span));
        if words.next_if(|word| is_unit(word.value)).is_some() {
            return Vec::new();
        }
        let mut ahead = words.clone();
        let joined = ahead.by_ref().take_while(|word| JOINTS.contains(&word.value)).count();
        let is_list = words.clone().nth(joined).is_some_and(|word| is_number(word.value));
        if joined == 0 || !is_list {
            break;
        }
        words.nth(joined - 1);
    }
    numbers
}

fn is_number(word: &str) -> bool {
    let parts = word.split('.');
    parts.clone().all(|part| !part.is_empty() && part.bytes().all(|byte| byte.is_ascii_digit()))
}

fn is_unit(word: &str) -> bool {
    !WORDS.contains(&word) && Unit::parse(word).is_ok()
}

/// The words and signs of a text; marks of emphasis and of quotes are none.
fn words(text: &str) -> Vec<Spanned<&str>> {
    let is_between = |letter: char| letter.is_whitespace() || "*_`>()\"'".contains(letter);
    let mut words = Vec::new();
    let mut start = 0;
    for piece in text.split_inclusive(is_between) {
        let word = piece.trim_end_matches(is_between);
        push_parts(&mut words, word, start);
        start += piece.len();
    }
    words
}

/// A word, and the comma or the stop behind it by itself; `6-8` is three.
fn push_parts<'t>(words: &mut Vec<Spanned<&'t str>>, word: &'t str, start: usize) {
    let is_sign = |letter: char| matches!(letter, ',' | '-' | '\u{2013}' | ';' | ':' | '!' | '?');
    let mut at = 0;
    for part in word.split_inclusive(is_sign) {
        let bare = part.trim_end_matches(is_sign);
        let trimmed = bare.trim_end_matches('.');
        if !trimmed.is_empty() {
            let from = start + at;
            words.push(Spanned::new(trimmed, Span::new(from, from + trimmed.len())));
        }
        // A full stop ends what is listed.
        for sign in part.get(trimmed.len()..).into_iter().filter(|rest| !rest.is_empty()) {
            let from = start + at + trimmed.len();
            words.push(Spanned::new(sign, Span::new(from, from + sign.len())));
        }
        at += part.len();
    }
}
