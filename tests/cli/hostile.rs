//! Control and direction characters in files and answers never reach the terminal.
//!
//! Source: ECMA-48 (escape, bell, the C1 control sequence introducer), Unicode Standard Annex #9 (U+202E).

use crate::session::stage::{Ended, Stage};

const HOSTILE: &str = "x\u{1b}[2J\u{1b}]0;title\u{7}\u{202e}\u{9b}31mz";

fn is_harmless(ended: &Ended) {
    for text in [&ended.out, &ended.err] {
        assert!(!text.contains(['\u{1b}', '\u{7}', '\u{202e}', '\u{9b}']), "{text:?}");
    }
}

#[test]
fn in_a_procedure() {
    let stage = Stage::with_small_procedure();
    let text = stage.text("bleed.md").replace("Open the tap.", &format!("Open {HOSTILE}."));
    let escaped = "\\u001b[2J\\u0007\\u202e\\u009b31m";
    let text = text.replace("author = \"the bayhand project\"", &format!("author = \"{escaped}\""));
    let text = text.replace("Each pin is locked", &format!("Each {escaped} is locked"));
    stage.file("bleed.md", &text);
    for command in [&["check", "bleed.md"][..], &["check", "--json", "bleed.md"], &["show", "bleed.md"]] {
        is_harmless(&stage.bayhand(command));
    }
    let answers = "Robin Vale\nSam Hollis\n187400 km\n10 psi\nmanual\nRV, SH\na\ny\ny\nRV\nSH\n";
    is_harmless(&stage.bayhand_fed(&["run", "bleed.md"], answers));
    for command in [&["runs"][..], &["status"], &["status", "--json"], &["record"]] {
        is_harmless(&stage.bayhand(command));
    }
}

#[test]
fn in_answers() {
    let stage = Stage::with_small_procedure();
    let answers = format!("{HOSTILE}\nSam Hollis\n{HOSTILE}\n187400 km\n{HOSTILE}\n");
    let ended = stage.bayhand_fed(&["run", "bleed.md", "--vehicle", "vehicle.toml"], &answers);
    assert_eq!(ended.code, Some(5), "{}", ended.err);
    is_harmless(&ended);
    for command in [&["runs"][..], &["runs", "--json"], &["status"], &["status", "--json"], &["record"]] {
        is_harmless(&stage.bayhand(command));
    }
}

#[test]
fn in_arguments_and_names_of_files() {
    let stage = Stage::bare();
    stage.file("a\u{1b}[2J\u{202e}b.md", "no procedure");
    for arguments in [
        ["check", "a\u{1b}[2J\u{202e}b.md"],
        ["check", "\u{1b}[2J.md"],
        ["explain", HOSTILE],
        ["run", HOSTILE],
        ["status", HOSTILE],
    ] {
        let ended = stage.bayhand(&arguments);
        assert_ne!(ended.code, Some(0));
        is_harmless(&ended);
    }
}
