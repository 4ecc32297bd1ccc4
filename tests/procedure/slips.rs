//! A slip in the TOML of a front matter touches its own line or table: everything else is read and judged all the same,
//! and nothing is said that follows only from what could not be read.

use super::support::{codes, file, found};

/// Three readings, the one in the middle as given; a mistake of its own in the last one and in the body.
fn with_between(between: &str) -> String {
    let tables = format!(
        "[readings.first]\nwhat = \"gap\"\nunit = \"mm\"\nmin = 1\n\
         {between}\n\
         [readings.last]\nwhat = \"gap\"\nunit = \"mmm\"\nmin = 1\n"
    );
    file(&tables, "# Gaps\n\n1. Read [first], [middle] and [last].\n2. Read [nowhere].\n")
}

/// Each slip with the codes of what is found, in the order of the text.
#[test]
fn a_slip_stops_only_its_own_table() {
    let slips = [
        ("[readings.middle]\nwhat = gap in the middle\nunit = \"mm\"", vec!["toml-syntax"]),
        ("[readings.middle]\nwhat = \"gap\nunit = \"mm\"", vec!["toml-syntax"]),
        ("[readings.middle]\nwhat \"gap\"\nunit = \"mm\"", vec!["toml-syntax"]),
        ("[readings.middle\nwhat = \"gap\"\nunit = \"mm\"", vec!["toml-syntax"]),
        ("[readings.middle]\nchoices = [\"clear\", \"cloudy\"\nwhat = \"gap\"", vec!["toml-syntax"]),
        ("[readings.middle]\nwhat = \"gap\"\nwhat = \"gap\"\nunit = \"mm\"", vec!["toml-duplicate"]),
        ("[readings.middle]\nwhat = gap\nunit = mm", vec!["toml-syntax", "toml-syntax"]),
    ];
    for (slip, mut expected) in slips {
        expected.extend(["unit-unknown", "mention-unknown"]);
        assert_eq!(codes(&with_between(slip)), expected, "{slip}");
    }
}

#[test]
fn nothing_is_said_to_be_missing_that_a_slip_took_away() {
    let whole = file("", "# Wipe\n\n1. Wipe it.\n");
    assert_eq!(codes(&whole), Vec::<&str>::new());
    for line in
        ["author = \"a tester\"", "required = \"none\"", "parts = \"none\"", "lead = \"does the work\""]
    {
        assert!(whole.contains(line), "{line}");
        let slipped = whole.replace(line, line.trim_end_matches('"'));
        assert_eq!(codes(&slipped), ["toml-syntax"], "{line}");
        assert!(found(&slipped).value.is_none(), "a file with a slip is no procedure: {line}");
    }
}

#[test]
fn of_names_that_cannot_be_told_nothing_is_said() {
    let tables = "[readings.first]\nwhat = \"gap\"\nunit = \"mmm\"\nmin = 1\n[\nwhat = \"gap\"\nunit = \"mm\"\nmin = 1\n";
    let text = file(tables, "# Gaps\n\n1. Read [first] and [middle].\n");
    assert_eq!(codes(&text), ["unit-unknown", "toml-syntax"]);
}

#[test]
fn an_open_text_of_several_lines_is_found_where_it_opens() {
    let tables = "[readings.first]\nwhat = \"\"\"gap\nunit = \"mm\"\nmin = 1\n[readings.last]\nwhat = \"gap\"\nunit = \"mmm\"\nmin = 1\n";
    let text = file(tables, "# Gaps\n\n1. Read [first] and [last].\n");
    assert_eq!(codes(&text), ["unit-unknown", "toml-syntax"]);
}

/// However many there are: each is found, and the work grows no faster than the text.
#[test]
fn many_slips_are_all_found() {
    let many: Vec<String> =
        (0..2_000).map(|number| format!("[readings.r{number}]\nwhat = gap\nunit = \"mm\"\n")).collect();
    let many = many.concat();
    let found = codes(&file(&many, "# Gaps\n\n1. Read [r7].\n"));
    assert_eq!(found, vec!["toml-syntax"; 2_000]);
}
