//! A walk as light as the work: people who are asked too much press through.

use super::person::Shown;
use super::walk;

/// Words are counted where nothing has to make room.
const HIGH: (usize, usize) = (80, 1000);

fn sum(shown: &[Shown], of: fn(&Shown) -> usize) -> usize {
    shown.iter().map(of).sum()
}

#[test]
fn the_faultless_flush_takes_at_most_75_answers_and_6000_words() {
    for keeps in [false, true] {
        let shown = walk(HIGH, keeps);
        assert!(shown.len() <= 75, "{} answers", shown.len());
        let words = sum(&shown, |shown| shown.words);
        assert!(words <= 6000, "{words} words");
    }
}

#[test]
fn the_frame_is_about_a_fifth_of_the_words() {
    let share = |keeps| {
        let shown = walk(HIGH, keeps);
        sum(&shown, |shown| shown.frame) * 100 / sum(&shown, |shown| shown.words)
    };
    assert!(share(true) <= 20, "{} % where what was said stays in sight", share(true));
    assert!(share(false) <= 22, "{} % on screens that hide the one before", share(false));
}

#[test]
fn every_screen_fits_80_columns_and_24_rows() {
    for shown in walk((80, 24), false) {
        assert!(shown.rows <= 24, "{} rows:\n{}", shown.rows, shown.screen);
    }
}
