//! Whatever a terminal obeys, and whatever nobody sees, never leaves: not from any field, by any way out.
//!
//! Source: ECMA-48 for C0 and C1; Unicode 15 for what is not seen (general category Cf, `Default_Ignorable_Code_Point`);
//! Unicode Standard Annex #9 for what reorders.

use std::fmt::Write;

use bayhand::terminal::Door;
use proptest::prelude::*;

use crate::session::stage::{Ended, Stage};

/// Every character that must not leave: C0 but tab and the end of a line, DEL, C1, and all that is not seen, the joiner and
/// the variation selectors of emoji excepted.
fn unseen() -> Vec<char> {
    let ranges = [
        0x00..=0x08,
        0x0b..=0x1f,
        0x7f..=0x9f,
        0xad..=0xad,
        0x34f..=0x34f,
        0x61c..=0x61c,
        0x115f..=0x1160,
        0x17b4..=0x17b5,
        0x180e..=0x180e,
        0x200b..=0x200c,
        0x200e..=0x200f,
        0x2028..=0x202e,
        0x2060..=0x206f,
        0x3164..=0x3164,
        0xfeff..=0xfeff,
        0xffa0..=0xffa0,
        0xfff9..=0xfffb,
        0x1_bca0..=0x1_bca3,
        0x1_d173..=0x1_d17a,
        0xe_0001..=0xe_0001,
        0xe_0020..=0xe_007f,
        0xe_0100..=0xe_01ef,
    ];
    ranges.into_iter().flatten().filter_map(char::from_u32).collect()
}

/// What is pushed into a field: each of them where a name may have it.
fn hostile(but: &[char]) -> String {
    unseen().into_iter().filter(|letter| !but.contains(letter)).flat_map(|letter| [letter, '[']).collect()
}

fn in_toml(text: &str) -> String {
    let mut escaped = String::new();
    for letter in text.chars() {
        let _ = write!(escaped, "\\U{:08x}", u32::from(letter));
    }
    escaped
}

/// The carriage return leaves only before the end of a line.
fn left(text: &str) -> Vec<char> {
    let text = text.replace("\r\n", "\n");
    let mut left: Vec<char> = text.chars().filter(|letter| unseen().contains(letter)).collect();
    left.dedup();
    left
}

fn nothing_left(ended: &Ended, what: &dyn std::fmt::Debug) {
    for text in [&ended.out, &ended.err] {
        assert_eq!(left(text), [], "{what:?}\n{}", text.escape_debug());
    }
    assert_ne!(ended.code, Some(101), "{what:?}: {}", ended.err);
}

const NAME: &str = "Robin Vale";

#[test]
fn in_every_field_of_a_procedure_a_sheet_and_answers_by_every_way_out() {
    let bad = hostile(&[]);
    let toml = in_toml(&bad);
    let stage = Stage::with_small_procedure();
    let (text, sheet) = (stage.text("bleed.md"), stage.text("vehicle.toml"));
    let mut hostile_text = text.clone();
    for words in [
        "the bayhand project",
        "an invented vehicle",
        "does the work",
        "measuring jug",
        "pressure gauge",
        "lowest pressure",
        "service manual",
        "The vehicle can come off",
        "It crushes",
        "Stay out",
        "Vehicle support",
        "Nothing but the stands",
        "Each pin",
        "vehicle on stands",
        "pressure at the tap\"",
        "Below it",
        "Tighten the hose",
        "vehicle sheet: demo",
        "fluid caught",
        "Milky fluid",
        "the drip time",
        "the hose is off",
    ] {
        assert!(hostile_text.contains(words), "{words}");
        let before = words.trim_end_matches('"');
        hostile_text = hostile_text.replacen(before, &format!("{before}{toml}"), 1);
    }
    // What stands on a line of its own in Markdown ends it: the ends of lines of C0 are left out there.
    let line = hostile(&['\0', '\u{b}', '\u{c}', '\r', '\u{2028}', '\u{2029}', '\u{85}']);
    hostile_text = hostile_text.replace("Open the tap.", &format!("Open the tap {line}."));
    stage.file("bleed.md", &hostile_text);
    let sheet = sheet.replace("Tarnbeck 40 (invented)", &format!("Tarnbeck {toml}"));
    stage.file("vehicle.toml", &sheet.replace("page 3-1", &format!("page {toml}")));
    let typed = hostile(&['\n', '\r', '\u{1b}']);
    let run = ["run", "bleed.md", "--vehicle", "vehicle.toml"];
    let input = format!("{NAME}{typed}\nSam{typed}\n187400 km\ny\n{typed}\nRV, SH\n{typed}\n");
    let ended = stage.bayhand_fed(&run, &input);
    nothing_left(&ended, &"run");
    assert_eq!(ended.code, Some(5), "{}", ended.err);
    let name = stage.run_name();
    let folder = stage.run().to_string_lossy().into_owned();
    let commands: [&[&str]; 27] = [
        &["check", "bleed.md"],
        &["check", "--json", "bleed.md", "vehicle.toml"],
        &["show", "bleed.md"],
        &["rehearse", "bleed.md"],
        &["sheet", "bleed.md"],
        &["sheet", &name],
        &["kit", "bleed.md", "--vehicle", "vehicle.toml"],
        &["kit", "bleed.md", "--markdown"],
        &["kit", "bleed.md", "--csv"],
        &["kit", "bleed.md", "--json"],
        &["runs"],
        &["runs", "--json"],
        &["status"],
        &["status", "--json"],
        &["record"],
        &["record", "--json"],
        &["record", "--html"],
        &["record", "--markdown"],
        &["record", "--csv"],
        &["records"],
        &["records", "--json"],
        &["records", "--csv"],
        &["verify", &folder],
        &["impact", "gauge", "--json"],
        &["dates"],
        &["share", "bleed.md", "--to", "out.zip"],
        &["receive", "out.zip", "taken"],
    ];
    for arguments in commands {
        nothing_left(&stage.bayhand(arguments), &arguments);
    }
    for (ending, wrong) in [
        ("md", format!("+++\nformat = 1\n\"{toml}\" = 1\nx{bad}\n+++\n# T{line}\n\n1. [{line}] {line}.\n")),
        ("toml", format!("format = 1\nvehicle = \"{toml}\"\n[values.\"{toml}\"]\nvalue = \"{toml}\"\n")),
    ] {
        stage.file(&format!("wrong.{ending}"), &wrong);
        let file = format!("wrong.{ending}");
        for arguments in
            [&["check", &file][..], &["check", "--json", &file], &["run", &file], &["show", &file]]
        {
            nothing_left(&stage.bayhand(arguments), &arguments);
        }
    }
    stage.file("answers.toml", &format!("format = 1\nclock = \"2026-11-21T09:10:00+00:00\"\nanswers = [\n{{ at = \"{toml}\", enter = \"{toml}\" }},\n]\n"));
    let with = [&run[..], &["--new", "--answers", "answers.toml"]].concat();
    nothing_left(&stage.bayhand(&with), &with);
}

#[test]
#[cfg(unix)]
fn in_the_names_of_files_and_in_arguments() {
    let bad = hostile(&['\0']);
    let short: Vec<String> =
        unseen().chunks(20).map(|some| some.iter().filter(|letter| **letter != '\0').collect()).collect();
    let stage = Stage::with_small_procedure();
    let text = stage.text("bleed.md");
    let commands: [&[&str]; 15] = [
        &["check", &bad],
        &["show", &bad],
        &["explain", &bad],
        &["run", &bad],
        &["status", &bad],
        &["record", &bad],
        &["calc", &bad],
        &["impact", &bad],
        &["records", "--vehicle", &bad],
        &["verify", &bad],
        &["library", &bad],
        &["receive", &bad, &bad],
        &[&bad],
        &["completions", &bad],
        &["runs", &bad],
    ];
    for arguments in commands {
        nothing_left(&stage.bayhand(arguments), &arguments);
    }
    for option in ["--", "-"] {
        let option = format!("{option}{bad}");
        nothing_left(&stage.bayhand(&[&option]), &option);
        nothing_left(&stage.bayhand(&["run", "bleed.md", &option]), &option);
    }
    for name in &short {
        let (md, toml) = (format!("a{name}.md"), format!("a{name}.toml"));
        stage.file(&md, &text);
        stage.file(&toml, "format = 1\n");
        for arguments in [
            &["check", &md, &toml][..],
            &["check", "--json", &md, &toml],
            &["run", &md, "--vehicle", &toml],
            &["run", &md, "--answers", &toml],
            &["rehearse", &md],
            &["share", &md, "--to", "x.zip"],
        ] {
            nothing_left(&stage.bayhand(arguments), &arguments);
        }
    }
    let data = stage.path(&format!("d{}", short[0])).to_string_lossy().into_owned();
    for arguments in
        [&["--data", &data, "run", "bleed.md"][..], &["--data", &data, "runs"], &["--data", &data, "status"]]
    {
        nothing_left(&stage.bayhand_fed(arguments, "Robin Vale\n"), &arguments);
    }
}

/// At a terminal our own sequences leave, and those alone: what was typed and read shows none of its own.
#[test]
#[cfg(unix)]
fn at_a_terminal() {
    use crate::session::seat::{Seat, Speech};
    let stage = Stage::with_small_procedure();
    let bad = "\u{1b}]0;title\u{7}\u{9b}2J\u{202e}\u{2066}\u{200b}\u{e0041}\u{85}";
    let text = stage.text("bleed.md").replace("the bayhand project", &in_toml(bad));
    stage.file("bleed.md", &text.replace("does the work", &format!("does the work{}", in_toml(bad))));
    for speech in [Speech::Colour, Speech::NoColour, Speech::Plain] {
        let mut seat =
            Seat::take(&stage, speech, 80, &["run", &stage.path("bleed.md").to_string_lossy(), "--new"]);
        seat.reads("Name of the lead");
        // As from a clipboard. What a terminal echoes by itself, in plain lines, is not ours.
        let pasted: String = unseen().into_iter().filter(|letter| *letter >= '\u{80}').collect();
        let pasted = if speech == Speech::Plain { String::new() } else { pasted };
        seat.types(&format!("Robin{pasted}Vale\r"));
        seat.reads("Name of the helper");
        let written = seat.pty.written();
        let found: Vec<char> = left(&written).into_iter().filter(|letter| *letter >= '\u{80}').collect();
        assert_eq!(found, [], "{speech:?}: {}", written.escape_debug());
        assert!(!written.contains("\u{1b}]0"), "{speech:?}");
    }
    let seat = Seat::take(&stage, Speech::Colour, 80, &["check", &format!("--{bad}")]);
    seat.pty.until_text("unexpected argument");
    assert!(!seat.pty.written().contains("\u{1b}]0"), "{}", seat.pty.written().escape_debug());
    let seat = Seat::take(&stage, Speech::Colour, 80, &["--help"]);
    seat.pty.until_bytes(|bytes| bytes.windows(4).any(|some| some == b"\x1b[1m"));
}

proptest! {
    #![proptest_config(crate::campaign::cases(300))]

    /// The last wall: whatever text comes to it, nothing that a terminal obeys gets through, and harmless text is untouched.
    #[test]
    fn nothing_passes_the_door(words in proptest::collection::vec(prop_oneof![
        any::<String>(),
        prop::sample::select(unseen()).prop_map(String::from),
        Just("\u{1b}[1m".to_owned()),
        Just("\u{1b}[31;1m".to_owned()),
        Just("\u{1b}[8m".to_owned()),
        Just("\u{1b}[2J".to_owned()),
        Just("\r\n".to_owned()),
        Just("[1m".to_owned()),
    ], 0..20)) {
        let text = words.concat();
        let bare = Door::output().cleaned(&text).into_owned();
        prop_assert_eq!(left(&bare), []);
        prop_assert_eq!(Door::output().cleaned(&bare), bare.as_str());
        let dressed = Door::errors().dressed(true).cleaned(&text).into_owned();
        let ours = ["\u{1b}[1m", "\u{1b}[31;1m"];
        let stripped = ours.iter().fold(dressed.clone(), |text, one| text.replace(one, ""));
        let found: Vec<char> = left(&stripped);
        prop_assert!(found.iter().all(|letter| *letter == '\u{1b}'), "{:?}", stripped);
        for (at, _) in stripped.match_indices('\u{1b}') {
            let rest = &stripped[at + 1..];
            let end = rest.find('m').unwrap_or(0);
            prop_assert!(rest.starts_with('[') && rest[1..end.max(1)].chars().all(|one| one.is_ascii_digit() || one == ';'), "{:?}", stripped);
        }
    }
}
