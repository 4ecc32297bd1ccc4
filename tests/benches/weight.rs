//! How much the example asks of a person: answers, keys, words, what of them is frame. Figures, no times.
//!
//! `cargo bench --bench weight`
#![allow(
    clippy::print_stdout,
    clippy::unwrap_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "a bench prints, and fails at once"
)]

#[path = "../whole/person.rs"]
mod person;

/// The ways to speak, each with its size. Words are counted where nothing has to make room.
const SIZES: [(&str, (usize, usize), bool); 5] = [
    ("screen", (80, 1000), false),
    ("plain", (80, 1000), true),
    ("80x24", (80, 24), false),
    ("40x24", (40, 24), false),
    ("40x14", (40, 14), false),
];

fn main() {
    for (name, size, keeps) in SIZES {
        report(name, &person::walk(size, keeps), size.1);
    }
}

fn report(size: &str, shown: &[person::Shown], height: usize) {
    let sum = |of: fn(&person::Shown) -> usize| shown.iter().map(of).sum::<usize>();
    let mut each: Vec<usize> = shown.iter().map(|shown| shown.words).collect();
    each.sort_unstable();
    let (words, frame) = (sum(|shown| shown.words), sum(|shown| shown.frame));
    let higher = shown.iter().filter(|shown| shown.rows > height).count();
    println!(
        "{size}: {} answers, {} keys, {words} words, frame {} %, words a question {} / {} (half, nine of ten), {higher} higher than the screen",
        shown.len(),
        sum(|shown| shown.keys),
        frame * 100 / words.max(1),
        each[each.len() / 2],
        each[each.len() * 9 / 10],
    );
}
