//! What a mechanic types, from `cases/quantity/entries.txt`.

use bayhand::quantity::{EntryProblem, Num, parse_entry, parse_literal};

use super::{q, unit};

const CASES: &str = include_str!("../cases/quantity/entries.txt");

#[test]
fn entries_are_read_as_the_file_says() {
    let lines = CASES.lines().filter(|line| !line.is_empty() && !line.starts_with('#'));
    let wrong: Vec<String> = lines.filter_map(disagreement).collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

fn disagreement(line: &str) -> Option<String> {
    let columns: Vec<&str> = line.split('|').collect();
    let [text, asked, expected] = columns[..] else {
        return Some(format!("three columns: {line}"));
    };
    let found = read(text, asked.trim());
    (found != normal(expected.trim())).then(|| format!("{line}    but: {found}"))
}

/// An exact number in the one form that `read` gives; a refusal stays.
fn normal(expected: &str) -> String {
    Num::from_exact_text(expected).map_or(expected.to_owned(), Num::to_exact_text)
}

fn read(text: &str, asked: &str) -> String {
    match parse_entry(text.trim_end_matches(' '), &unit(asked)) {
        Ok(entry) => {
            assert_eq!(entry.text, text.trim_end_matches(' '), "what was typed is kept");
            assert_eq!(entry.asked.unit, unit(asked));
            entry.asked.number.to_exact_text()
        }
        Err(EntryProblem::Empty) => "empty".to_owned(),
        Err(EntryProblem::WhichMeant { first, second }) => format!("which: {first} or {second}"),
        Err(EntryProblem::NotANumber { .. }) => "not a number".to_owned(),
        Err(EntryProblem::UnknownUnit(_)) => "unknown unit".to_owned(),
        Err(EntryProblem::WrongDimension { .. }) => "wrong unit".to_owned(),
        Err(EntryProblem::TooLarge) => "too large".to_owned(),
    }
}

#[test]
fn what_was_typed_is_kept_beside_what_it_became() {
    let entry = parse_entry("35 lbf·ft", &unit("N·m")).unwrap();
    assert_eq!(entry.text, "35 lbf·ft");
    assert_eq!(entry.typed, q("35 lbf·ft"));
    // NIST SP 811 B.8: 1 lbf·ft = 1.3558179483314004 N·m exactly; times 35.
    assert_eq!(entry.asked.number.to_exact_text(), "47.453628191599014");
    assert_eq!(entry.asked.to_string(), "47.454 N·m");
}

#[test]
fn a_time_with_colons_is_kept_in_seconds() {
    assert_eq!(parse_entry("1:30 min", &unit("min")).unwrap().typed, q("90 s"));
}

#[test]
fn answers_to_which_was_meant_are_read() {
    let Err(EntryProblem::WhichMeant { first, second }) = parse_entry("-1,234", &unit("kPa")) else {
        panic!("it asks");
    };
    assert_eq!(parse_entry(&first, &unit("kPa")).unwrap().asked, q("-1.234 kPa"));
    assert_eq!(parse_entry(&second, &unit("kPa")).unwrap().asked, q("-1234 kPa"));
}

#[test]
fn refusals_say_the_way_out() {
    let said = |text: &str, asked: &str| parse_entry(text, &unit(asked)).unwrap_err().to_string();
    assert_eq!(
        said("1,234", "kPa"),
        "this can be read as 1.234 or as 1234; type the one you mean just like that"
    );
    assert_eq!(said("16 oz", "mL"), "`oz` is a unit of mass, and this is volume; did you mean `fl oz`?");
    assert_eq!(said("20 lb", "N"), "`lb` is a unit of mass, and this is force; did you mean `lbf`?");
    assert_eq!(
        said("35 N·m", "kPa"),
        "`N·m` is a unit of torque or energy, and this is pressure; type it in `kPa` or a unit that can be turned into it"
    );
    assert_eq!(
        said("5 kg", ""),
        "`kg` is a unit of mass, and this is plain number; type the number without a unit"
    );
    assert_eq!(said("", "kPa"), "nothing was typed; type the number, with a unit if it is another one");
    assert!(said("5.", "kPa").contains("a digit is missing"));
    assert!(said("5 ft 3", "in").contains("each needs its unit"));
}

#[test]
fn a_refusal_shows_control_characters_harmlessly() {
    let said = parse_entry("\u{1b}[2J", &unit("kPa")).unwrap_err().to_string();
    assert!(!said.contains('\u{1b}'), "{said:?}");
    let said = parse_entry("5 \u{1b}[2J", &unit("kPa")).unwrap_err().to_string();
    assert!(!said.contains('\u{1b}'), "{said:?}");
}

#[test]
fn an_overlong_text_is_refused_unread() {
    assert_eq!(parse_entry(&"9".repeat(10_000), &unit("mm")), Err(EntryProblem::TooLarge));
    assert_eq!(parse_literal(&"9".repeat(10_000)), Err(EntryProblem::TooLarge));
}

#[test]
fn literals_are_strict() {
    for (text, number, symbol) in [
        ("1 in", "1", "in"),
        ("5 1/2 qt", "5.5", "qt"),
        ("3/16 in", "0.1875", "in"),
        ("-40 °C", "-40", "°C"),
        ("4 %", "4", "%"),
        ("0.6", "0.6", ""),
        ("1e3 Pa", "1000", "Pa"),
        ("2.5 L/min", "2.5", "L/min"),
        ("90°", "90", "°"),
        ("1450 1/min", "1450", "1/min"),
        ("−5 °C", "-5", "°C"),
        ("30psi", "30", "psi"),
    ] {
        let literal = q(text);
        assert_eq!(
            (literal.number.to_exact_text().as_str(), literal.unit.symbol()),
            (number, symbol),
            "{text}"
        );
    }
    for text in
        ["", "1,5 mm", "1 234 mm", "1:30", "5 ft 3 in", "5.", "mm", "1.2.3", "1 2", "5 xyzzy", "½ in", "5 .5"]
    {
        assert!(parse_literal(text).is_err(), "{text}");
    }
}
