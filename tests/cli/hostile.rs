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
    let answers = "Robin Vale\nSam Hollis\n187400 km\n10 psi\nmanual\ny\nRV, SH\na\ny\ny\nRV\nSH\n";
    is_harmless(&stage.bayhand_fed(&["run", "bleed.md"], answers));
    for command in [&["runs"][..], &["status"], &["status", "--json"], &["record"], &["sheet", "bleed.md"]] {
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
    for form in ["--html", "--markdown", "--csv", "--json"] {
        is_harmless(&stage.bayhand(&["record", form]));
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

/// One of each sort that a terminal obeys or nobody sees: C0, C1, DEL, bidirectional marks, joiners, fillers, separators,
/// annotation, music and tag characters (Unicode 15: general category Cf, `Default_Ignorable_Code_Point`).
const UNSEEN: [char; 24] = [
    '\u{1b}',
    '\u{7}',
    '\u{8}',
    '\u{7f}',
    '\u{85}',
    '\u{90}',
    '\u{9b}',
    '\u{ad}',
    '\u{34f}',
    '\u{61c}',
    '\u{180e}',
    '\u{200b}',
    '\u{202e}',
    '\u{2028}',
    '\u{2060}',
    '\u{2064}',
    '\u{206a}',
    '\u{2066}',
    '\u{3164}',
    '\u{feff}',
    '\u{fff9}',
    '\u{1d173}',
    '\u{e0001}',
    '\u{e0101}',
];

/// Colours are the only sequences that leave, and only where they are asked for.
fn without_colours(text: &str) -> String {
    let mut shown = String::new();
    let mut rest = text;
    while let Some((before, after)) = rest.split_once("\u{1b}[") {
        shown.push_str(before);
        let end = after.find(|letter: char| !letter.is_ascii_digit() && letter != ';').unwrap_or(0);
        if !after[end..].starts_with('m') {
            shown.push('\u{1b}');
        }
        rest = after.get(end + 1..).unwrap_or_default();
    }
    shown + rest
}

/// What is wrong beside such a character is shown with its line, plain, in colour and as data.
#[test]
fn nothing_unseen_is_shown_beside_a_mistake() {
    use bayhand::source::{Colour, Look, SourceText, render, to_json};
    for character in UNSEEN {
        for front in [
            format!("format = 1\nhaz{character}[2J{character}ards = \"none\"\n"),
            format!("format = 1\n\"x{character}y\" = \"a{character}b\"\nlevel_of_use = \"c{character}d\"\n"),
        ] {
            let text = format!(
                "+++\n{front}+++\n# T{character}itle\n\n1. Wipe [a{character}b] step 9{character}.\n"
            );
            let source = SourceText::new(format!("f{character}.md"), text.as_str());
            let said = bayhand::procedure::read(&source, "f").diagnostics;
            assert!(!said.is_empty());
            for colour in [Colour::Plain, Colour::Ansi] {
                for width in [40, 100] {
                    let shown = without_colours(&render(&said, &source, Look { colour, width }));
                    assert!(!shown.contains(character), "{character:?}: {shown:?}");
                }
            }
            let json = to_json(&said, &source);
            assert!(!json.contains(character), "{character:?}: {json:?}");
            let first: serde_json::Value = serde_json::from_str(json.lines().next().unwrap()).unwrap();
            assert_eq!(first["file"], format!("f{character}.md"), "as data nothing is lost");
        }
    }
}

/// A line that says that nothing is wrong is not believed: what would move the cursor is seen, and the mark stands below
/// its place.
#[test]
fn a_file_cannot_write_its_own_verdict() {
    let stage = Stage::bare();
    stage.file("spoof.md", "+++\nformat = 1\nhaz\u{9b}2J\u{9b}Hspoof.md: nothing to report\u{9b}8m = \"none\"\n+++\n# T\n\n1. Wipe.\n");
    let ended = stage.bayhand(&["check", "spoof.md"]);
    assert_eq!(ended.code, Some(1));
    assert!(
        ended.out.contains("3 | haz\u{fffd}2J\u{fffd}Hspoof.md: nothing to report\u{fffd}8m"),
        "{}",
        ended.out
    );
    is_harmless(&ended);
    is_harmless(&stage.bayhand(&["check", "--json", "spoof.md"]));
}
