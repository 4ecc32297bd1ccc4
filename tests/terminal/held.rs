//! A key that is held down settles one thing, whatever comes after it.

use super::pty::Pty;
use super::stage::scene;

/// Settles the first question with Enter and goes on holding it while the next thing is there.
fn held_on(name: &str, first: &str, next: &str) -> Pty {
    // A machine that was busy with something else has let the key go.
    for _ in 0..20 {
        let mut pty = scene(name);
        pty.until_text(first);
        pty.type_keys("\r");
        pty.until_text(next);
        if pty.hold("\r").is_some() {
            return pty;
        }
    }
    panic!("this machine is too slow to hold a key down");
}

/// It is still asked; the same key, pressed anew, is an answer.
fn counts_once(mut pty: Pty, next: &str, heard: &str) {
    assert!(pty.screen_text().contains(next), "{}", pty.screen_text());
    assert!(!pty.screen_text().contains("heard"), "{}", pty.screen_text());
    std::thread::sleep(std::time::Duration::from_millis(500));
    pty.type_keys("\r");
    pty.until_text(heard);
}

#[test]
fn a_key_after_a_key() {
    counts_once(held_on("key-then-key", "first", "The second question."), "The second", "heard: Key('\\n')");
}

#[test]
fn a_list_after_a_key() {
    counts_once(held_on("key-then-choice", "first", "> dark red"), "> dark red", "heard: Chosen(1)");
}

#[test]
fn a_list_after_a_line() {
    counts_once(held_on("line-then-choice", "> ", "> dark red"), "> dark red", "heard: Chosen(1)");
}

#[test]
fn a_wait_after_a_key() {
    counts_once(held_on("key-then-wait", "first", "left, over at"), "left, over at", "heard: Key('\\n')");
}

#[test]
fn the_stopwatch_is_not_stopped_by_the_key_that_starts_it() {
    counts_once(held_on("key-then-time", "first", "The stopwatch runs."), "stopwatch runs", "heard: Elapsed");
}
