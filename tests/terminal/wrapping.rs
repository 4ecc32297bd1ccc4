//! Wrapping and attributes of styled text.

use bayhand::terminal::{Line, Manner, Role, Text, paint, rows};
use proptest::prelude::*;
use textwrap::core::display_width;

fn lines(text: impl Into<Text>, width: usize) -> String {
    paint(&text.into(), width, Manner::Lines)
}

#[test]
fn a_marked_line_goes_on_below_its_first_word() {
    let line = Line::marked("12.", "Lower it by the width of a hand and look at all hoses.").indent(2);
    let expected = "  12. Lower it by the width of a hand\n      and look at all hoses.\n";
    assert_eq!(lines(line, 40), expected);
}

#[test]
fn an_empty_line_is_a_row() {
    assert_eq!(lines(Text::plain("a").blank().line(Line::plain("b")), 40), "a\n\nb\n");
}

#[test]
fn a_no_break_space_keeps_a_number_with_its_unit() {
    assert_eq!(lines(Line::plain("the minimum of 2.5\u{a0}L/min"), 20), "the minimum of\n2.5 L/min\n");
}

#[test]
fn a_word_longer_than_a_row_is_the_only_one_that_is_cut() {
    let line = Line::plain("see /a/very/long/path/that/fits/nowhere now");
    assert_eq!(lines(line, 20), "see\n/a/very/long/path/th\nat/fits/nowhere now\n");
}

/// Source: Unicode Standard Annex #11: these ideographs take two columns each.
#[test]
fn wide_characters_count_as_two_columns() {
    assert_eq!(lines(Line::plain("温度計 温度計 温度計"), 13), "温度計 温度計\n温度計\n");
}

/// Source: Unicode Standard Annex #14: a row may end between two ideographs, and not before their full stop.
#[test]
fn a_sentence_without_spaces_fills_its_rows_and_keeps_its_punctuation() {
    assert_eq!(lines(Line::plain("12. 温度計を見る。次"), 13), "12. 温度計を\n見る。次\n");
    assert_eq!(lines(Line::plain("温度計を見る。次"), 12), "温度計を見\nる。次\n");
}

#[test]
fn a_line_end_inside_words_begins_a_row_and_a_tab_is_a_space() {
    assert_eq!(lines(Line::plain("a\tb\nc").indent(2), 40), "  a b\n  c\n");
}

#[test]
fn indents_leave_room_on_a_narrow_screen() {
    let out = lines(Line::plain("words that are to be seen").indent(60), 20);
    assert!(out.lines().all(|row| display_width(row) <= 20), "{out}");
    assert_eq!(out.split_whitespace().collect::<Vec<_>>().join(" "), "words that are to be seen");
}

/// Source: ECMA-48, select graphic rendition: 31-37 and 41-47 are colours, 1 is bold, 7 is reversed.
#[test]
fn attributes_follow_the_manner() {
    let text = Text::from(Line::new().with(Role::Danger, "DANGER").with(Role::Plain, " hot fluid"));
    assert_eq!(paint(&text, 80, Manner::Lines), "DANGER hot fluid\n");
    let mono = paint(&text, 80, Manner::Mono);
    assert!(mono.contains("\u{1b}[1m") && mono.contains("\u{1b}[7m"), "{mono:?}");
    assert!(!mono.contains("\u{1b}[3") && !mono.contains("\u{1b}[4"), "{mono:?}");
    let colour = paint(&text, 80, Manner::Colour);
    assert!(colour.contains("\u{1b}[41m") && colour.contains("DANGER\u{1b}[0m hot fluid"), "{colour:?}");
}

/// Source: ECMA-48 (C0 and C1 controls), Unicode Standard Annex #9 (direction controls).
#[test]
fn control_characters_in_words_become_visible_and_harmless() {
    let out = lines(Line::plain("a\u{1b}[2Jb\u{7}c\u{202e}d\u{9b}31me\u{7f}f\u{2066}g\r"), 80);
    assert_eq!(out, "a␛[2Jb␇c\u{fffd}d\u{fffd}31me␡f\u{fffd}g␍\n");
}

proptest! {
    /// No row is wider than the screen, and no word is lost or changed.
    #[test]
    fn rows_fit_and_keep_every_word(
        words in prop::collection::vec("[a-zäß温·/°.,-]{1,10}", 0..40),
        width in 24_usize..100,
        indent in 0_usize..8,
        hang in 0_usize..6,
    ) {
        let pieces = words.iter().enumerate().fold(Line::new(), |line, (n, word)| {
            let role = if n % 3 == 0 { Role::Strong } else { Role::Plain };
            line.with(role, if n == 0 { word.clone() } else { format!(" {word}") })
        });
        let text = Text::from(pieces.indent(indent).hang(hang));
        let out = paint(&text, width, Manner::Lines);
        prop_assert!(out.lines().all(|row| display_width(row) <= width), "{}", out);
        let found: Vec<&str> = out.split_whitespace().collect();
        // A word of ten wide ideographs may be wider than the least room and be cut.
        prop_assert_eq!(found.concat(), words.concat());
        prop_assert_eq!(out.lines().count(), rows(&text, width, Manner::Lines));
    }

    /// Whatever the words are, what is written has no control character but the line end.
    #[test]
    fn nothing_gets_through(words in "\\PC*|[\\x00-\\x1f\\x7f-\\x9f\\u{202a}-\\u{202e}]{0,20}") {
        let out = paint(&Text::from(Line::plain(words)), 40, Manner::Lines);
        prop_assert!(out.chars().all(|c| c == '\n' || !c.is_control()), "{:?}", out);
    }
}
