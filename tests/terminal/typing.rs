//! Typing at a terminal.

use std::time::Duration;

use super::pty::Pty;
use super::stage::{driver, piped, scene, scene_at};

#[test]
fn a_single_key_answers_without_enter() {
    let mut pty = scene("key");
    pty.until_text("[?] why this is asked");
    pty.type_keys("y");
    pty.until_text("heard: Key('y')");
    assert_eq!(pty.exit_code(), 0);
}

#[test]
fn an_unknown_key_is_answered_with_the_list() {
    let mut pty = scene_at("key", 40, &[]);
    pty.until_text("[Enter] go on");
    pty.type_keys("k");
    pty.until_text("`k` is not asked for here.");
    pty.type_keys("\u{1b}[A");
    pty.until_text("`that key` is not asked for here.");
    assert!(!pty.screen_text().contains("`k`"), "one refusal takes the place of the other");
    pty.type_keys("N");
    pty.until_text("heard: Key('n')");
}

#[test]
fn keys_typed_before_the_question_do_not_answer_it() {
    let mut pty = scene("screens");
    pty.until_text("[Enter]");
    // One write: all three keys are there before the second question is.
    pty.type_keys("\r\r\r");
    pty.until_text("second screen");
    pty.until_text("[Enter]");
    std::thread::sleep(Duration::from_millis(100));
    assert!(!pty.screen_text().contains("heard"), "{}", pty.screen_text());
    pty.type_keys("\r");
    pty.until_text("heard: Key('\\n')");
}

#[test]
fn a_value_can_be_pasted() {
    let mut pty = scene("text");
    pty.until(|screen| screen.contents().contains("> ") && screen.bracketed_paste());
    pty.type_keys("\u{1b}[200~72.8 °C\n\u{1b}[201~");
    pty.until_text("> 72.8 °C");
    pty.type_keys("\r");
    pty.until_text("heard: Text(\"72.8 °C\")");
    assert!(!pty.screen(vt100::Screen::bracketed_paste));
}

#[test]
fn backspace_takes_one_character_however_wide_it_is() {
    let mut pty = scene("text");
    pty.until_text("> ");
    pty.type_keys("温度 72");
    pty.until_text("> 温度 72");
    pty.type_keys("\u{7f}\u{7f}\u{7f}\u{7f}");
    pty.until(|screen| screen.contents().trim_end().ends_with("> 温"));
    assert_eq!(pty.screen(vt100::Screen::cursor_position), (1, 4));
    pty.type_keys("\r");
    pty.until_text("heard: Text(\"温\")");
}

#[test]
fn a_hostile_paste_is_shown_harmless() {
    let mut pty = scene("text");
    pty.until(|screen| screen.contents().contains("> ") && screen.bracketed_paste());
    pty.type_keys("\u{1b}[200~7\u{1b}[2J\u{7}\u{202e}8\u{1b}[201~");
    pty.until(|screen| screen.contents().contains("> 7") && screen.contents().contains('8'));
    let sent = pty.written();
    assert!(!sent.contains("\u{1b}[2J") && !sent.contains(['\u{7}', '\u{202e}']), "{sent:?}");
}

#[test]
fn a_choice_is_made_with_the_arrows() {
    let mut pty = scene("choice");
    pty.until_text("> dark red");
    pty.type_keys("\u{1b}[B");
    pty.until_text("> black");
    pty.type_keys("\r");
    pty.until_text("heard: Chosen(2)");
    assert!(!pty.screen(vt100::Screen::hide_cursor));
}

/// What does not fit the screen stays out of sight until the mark comes near it.
#[test]
fn a_choice_too_high_for_the_screen_is_made_with_the_arrows_too() {
    for (keys, seen, taken) in [("\u{1b}[B", "> item 2", 1), ("\u{1b}[A", "> item 40", 39)] {
        let mut pty = scene("high-choice");
        pty.until_text("> item 1");
        pty.until_text("(0 more above)");
        pty.until_text("(21 more below)");
        pty.type_keys(keys);
        pty.until_text(seen);
        let screen = pty.screen_text();
        assert!(screen.contains("Which one?") && screen.contains("goes back."), "{screen}");
        pty.type_keys("\r");
        pty.until_text(&format!("heard: Chosen({taken})"));
    }
}

#[test]
fn a_choice_can_be_left() {
    let mut pty = scene("choice");
    pty.until_text("> dark red");
    pty.type_keys("b");
    pty.until_text("heard: Interrupt");
    let mut pty = scene("choice");
    pty.until_text("> dark red");
    pty.type_keys("\u{1b}");
    pty.until_text("heard: Interrupt");
}

#[test]
fn an_item_too_long_for_a_row_takes_several() {
    let mut pty = scene_at("long-choice", 40, &[]);
    pty.until_text("> red");
    pty.type_keys("\u{1b}[B");
    pty.until_text("> burnt and black");
    pty.type_keys("\u{1b}[A");
    pty.until_text("> red");
    assert_eq!(pty.screen_text().matches("> ").count(), 1, "{}", pty.screen_text());
    pty.type_keys("\u{1b}[B");
    pty.until_text("> burnt and black");
    pty.type_keys("\r");
    pty.until_text("heard: Chosen(1)");
}

#[test]
fn a_page_of_a_list_is_turned_with_its_key() {
    let mut pty = scene("high-choice");
    pty.until_text("> item 1");
    pty.type_keys("\u{1b}[6~");
    pty.until_text("> item 20");
    pty.type_keys("\u{1b}[6~\u{1b}[6~");
    pty.until_text("> item 40");
    pty.type_keys("\u{1b}[5~");
    pty.until_text("> item 21");
}

#[test]
fn escape_goes_back_on_the_side_and_takes_no_letter_with_it() {
    let mut pty = scene("aside");
    pty.until_text("> ");
    pty.type_keys("because\u{1b}");
    pty.until_text("heard: Interrupt");
    let mut pty = scene("text");
    pty.until_text("> ");
    pty.type_keys("\u{1b}");
    std::thread::sleep(Duration::from_millis(100));
    pty.type_keys("72 \u{1b}psi");
    pty.until_text("> 72 psi");
    pty.type_keys("\r");
    pty.until_text("heard: Text(\"72 psi\")");
    let mut pty = scene("key");
    pty.until_text("[?] why this is asked");
    pty.type_keys("\u{1b}y");
    pty.until_text("heard: Key('y')");
}

#[test]
fn a_wait_shows_what_is_left_and_any_key_interrupts_it() {
    for columns in [80, 40] {
        let mut pty = scene_at("wait", columns, &[]);
        pty.until_text("left, over at 21:40");
        pty.type_keys("s");
        pty.until_text("heard: Key('s')");
        assert!(!pty.screen_text().contains("left, over"), "{}", pty.screen_text());
    }
}

#[test]
fn a_wait_ends_by_itself() {
    scene("short-wait").until_text("heard: Elapsed");
}

#[test]
fn pipes_are_spoken_to_in_lines() {
    let output = piped("choice", "3\n");
    let said = String::from_utf8(output.stdout).expect("UTF-8");
    assert!(said.contains("  3. black\n") && said.ends_with("heard: Chosen(2)\n"), "{said}");
    assert!(!said.contains('\u{1b}'), "{said:?}");
    assert_eq!(output.status.code(), Some(0));
}

#[test]
fn a_wait_is_interrupted_by_a_line_from_a_pipe() {
    let said = String::from_utf8(piped("wait", "s\n").stdout).expect("UTF-8");
    assert!(said.ends_with("heard: Key('s')\n"), "{said}");
}

fn plain(name: &str, columns: u16) -> Pty {
    Pty::start((driver(), &[name, "--plain"]), columns, 24, &[])
}

#[test]
fn linear_text_at_a_terminal_is_wrapped_to_it_and_has_no_escape_codes() {
    let pty = plain("say", 40);
    pty.until_text("heard: Elapsed");
    assert!(pty.screen_text().contains("12. Lower the transmission by the width\n    of a hand"));
    assert!(!pty.written().contains('\u{1b}'));
}

#[test]
fn a_wait_in_linear_text_ends_with_enter_or_by_itself() {
    let mut pty = plain("wait", 80);
    pty.until_text("10 min 0 s left, over at 21:40.");
    pty.type_keys("\r");
    pty.until_text("heard: Key('\\n')");
    plain("short-wait", 80).until_text("heard: Elapsed");
}
