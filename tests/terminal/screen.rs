//! What stands on the screen, at both widths, with and without colour.

use super::pty::Pty;
use super::stage::{scene, scene_at};

const WORDS: [&str; 8] = ["DANGER", "WARNING", "CAUTION", "NOTICE", "IN FORCE", "pass", "fail", "next"];

/// The rows with words in them, without the space at their ends.
fn rows(pty: &Pty) -> Vec<String> {
    pty.screen_text().lines().map(|row| row.trim_end().to_owned()).filter(|row| !row.is_empty()).collect()
}

/// How many cells have a colour of their own.
fn coloured(pty: &Pty) -> usize {
    let is_coloured = |cell: &vt100::Cell| {
        cell.fgcolor() != vt100::Color::Default || cell.bgcolor() != vt100::Color::Default
    };
    pty.screen(|screen| {
        let (rows, columns) = screen.size();
        let cells = (0..rows.get()).flat_map(|row| (0..columns.get()).map(move |column| (row, column)));
        cells.filter(|&(row, column)| screen.cell(row, column).is_some_and(is_coloured)).count()
    })
}

fn sample(columns: u16, env: &[(&str, &str)]) -> Pty {
    let pty = scene_at("say", columns, env);
    pty.until_text("heard: Elapsed");
    pty
}

#[test]
fn every_signal_word_is_there_whatever_the_width_and_the_colour() {
    let no_colour: [(&str, &str); 1] = [("NO_COLOR", "1")];
    for (columns, env) in [(80, &[][..]), (40, &[][..]), (80, &no_colour[..]), (40, &no_colour[..])] {
        let pty = sample(columns, env);
        assert_eq!(&rows(&pty)[..8], &WORDS, "{columns} columns, {env:?}");
    }
}

#[test]
fn colour_is_used_unless_no_color_is_set() {
    assert!(coloured(&sample(80, &[])) > 0);
    assert_eq!(coloured(&sample(80, &[("NO_COLOR", "1")])), 0);
    assert!(coloured(&sample(80, &[("NO_COLOR", "")])) > 0);
}

#[test]
fn forty_columns_wrap_between_words_and_draw_the_gauge() {
    let pty = sample(40, &[]);
    let expected = [
        "12. Lower the transmission by the width",
        "    of a hand, look at all hoses and",
        "    cables, then go on.",
        "······ 45 ━━━━━━━━━━━ [52.2] ━ 55 ······",
        "end of sample",
    ];
    assert_eq!(&rows(&pty)[8..13], &expected);
}

#[test]
fn a_terminal_without_abilities_gets_words_and_no_escape_codes() {
    let pty = sample(80, &[("TERM", "dumb")]);
    assert!(!pty.written().contains('\u{1b}'), "{:?}", pty.written());
    assert!(pty.screen_text().contains("2.8 below the maximum"));
}

#[test]
fn a_new_screen_takes_the_old_one_away() {
    let mut pty = scene("screens");
    pty.until_text("first screen");
    pty.until_text("[Enter]");
    pty.type_keys("\r");
    pty.until(|screen| screen.contents().contains("second screen") && !screen.contents().contains("first"));
}

/// Source: ECMA-48 (escape, bell, C1 controls), Unicode Standard Annex #9 (U+202E turns the text round).
#[test]
fn hostile_text_is_shown_harmless_wherever_it_goes() {
    // The screen of these tests leaves U+FFFD out; that it was sent is looked up at the end.
    let shown = "a␛[2Jb␇cd31me";
    let times = |n: usize| move |screen: &vt100::Screen| screen.contents().matches(shown).count() == n;
    let mut pty = scene("hostile");
    pty.until(times(3));
    pty.type_keys("y");
    pty.until(times(5));
    pty.until_text("second");
    pty.type_keys("\r");
    // The list is taken away, the taken item stays; then the prompt for a text.
    pty.until(times(6));
    let sent = pty.written();
    assert!(!sent.contains("\u{1b}[2J") && !sent.contains(['\u{7}', '\u{202e}', '\u{9b}']), "{sent:?}");
}
