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
fn the_frame_is_at_most_a_fifth_of_the_words() {
    let share = |keeps| {
        let shown = walk(HIGH, keeps);
        sum(&shown, |shown| shown.frame) * 100 / sum(&shown, |shown| shown.words)
    };
    assert!(share(true) <= 20, "{} % where what was said stays in sight", share(true));
    assert!(share(false) <= 20, "{} % on screens that hide the one before", share(false));
}

#[test]
fn half_the_questions_take_35_words_and_nine_of_ten_take_90() {
    for keeps in [false, true] {
        let mut words: Vec<usize> = walk(HIGH, keeps).iter().map(|shown| shown.words).collect();
        words.sort_unstable();
        let (half, most) = (words[words.len() / 2], words[words.len() * 9 / 10]);
        assert!(half <= 35 && most <= 90, "{half} and {most} words");
    }
}

/// What does not fit is shown page by page from its beginning.
#[test]
fn every_screen_fits_its_terminal() {
    for (columns, height) in [(80, 24), (40, 24), (40, 14)] {
        for shown in walk((columns, height), false) {
            assert!(shown.rows <= height, "{} rows of {height}:\n{}", shown.rows, shown.screen);
        }
    }
}
