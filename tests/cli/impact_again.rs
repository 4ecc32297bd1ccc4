//! `impact --error`: what was read with an instrument that was off is judged again, and so is what rests on it.

use bayhand::record::impact::IMPACT_SCHEMA;
use serde_json::Value;

use super::two_runs::{USUAL, ran, stage};
use crate::record::schema::fits;
use crate::run::drive::titled;
use crate::session::stage::{Stage, words_of};

/// 50/1.08 = 46.296 N·m, below 48; 51/1.08 = 47.222 (by hand).
#[test]
fn bolts_that_were_good_are_not_any_more() {
    let stage = stage();
    ran(&stage, ("2026-10-12", "151200 km", "one.toml"), &USUAL);
    let ended = stage.bayhand(&["impact", "tw-1", "--error", "+8 %"]);
    let said = words_of(&ended.out);
    assert_eq!(ended.code, Some(1), "{said}\n{}", ended.err);
    for words in [
        "tw-1 read 8 % high: what was there is what was read, divided by 1.08.",
        "GOOD BEFORE, NOT GOOD NOW (2): 2026-10-12-gap, step 1.4, flange bolts, full, 1: 50 N·m, now 46.296 N·m; pass, now \
         fail, 1.7 N·m below the minimum of 48 N·m",
        "full, 2: 51 N·m, now 47.222 N·m",
        "2026-10-12-gap would not have been closed:",
        "Left as they are: 2 readings with other tools",
    ] {
        assert!(said.contains(words), "{words}\n{said}");
    }
    // One that read low leaves 50/0.98 = 51.02 and 51/0.98 = 52.04 N·m: the second is over 52.
    let low = stage.bayhand(&["impact", "TW-1", "--error", "-2 %"]);
    let said = words_of(&low.out);
    assert!(said.contains("read 2 % low") && said.contains("NOT GOOD NOW (1)"), "{said}");
    assert!(said.contains("full, 1: 50 N·m, now 51.02 N·m; pass as before"), "{said}");
    // Within the limits nothing turns: 50 - 1 and 51 - 1.
    let small = stage.bayhand(&["impact", "TW-1", "--error", "+1 N·m"]);
    let said = words_of(&small.out);
    assert_eq!(small.code, Some(0), "{said}");
    assert!(said.contains("read 1 N·m high: what was there is what was read, less 1 N·m."), "{said}");
    assert!(
        said.contains("No verdict that was good is bad now.") && said.contains("50 N·m, now 49 N·m"),
        "{said}"
    );
    let later = stage.bayhand(&["impact", "TW-1", "--since", "2026-10-13", "--error", "+8 %"]);
    assert_eq!(later.code, Some(0), "{}", later.out);
    // The run itself is as it was.
    assert_eq!(stage.bayhand(&["verify", "2026-10-12-gap"]).code, Some(0));
}

const RESTING: &str = r#"[tools.gauge]
what = "pressure gauge"
calibrated = true
[tools.probe]
what = "thermometer"
calibrated = true
[readings.supply]
what = "supply pressure"
unit = "bar"
max = "2.2 bar"
instrument = "gauge"
fails = "Turn it down."
[readings.far]
what = "pressure at the far end"
unit = "bar"
min = 'supply - 0.3 bar'
information_only = false
fails = "Look for the leak."
[readings.warm]
what = "temperature of the line"
unit = "°C"
max = "40 °C"
instrument = "probe"
fails = "Let it cool."
[values.twice]
what = "force on the plug"
formula = 'supply * 3 cm²'
unit = "N"
max = "70 N"
[holds.low]
what = "Low pressure"
why = "The line bursts above it."
confirm = ["The valve is shut"]
readings = ["supply"]
release = "lead"
"#;

/// 2.0 bar read low by 0.5 bar is 2.5 bar: above 2.2; 2.5e5 Pa on 3 cm² are 75 N; the far end then needs 2.2 bar.
#[test]
fn what_rests_on_a_corrected_reading_is_judged_again_too() {
    let stage = Stage::bare();
    let tables = RESTING.replace("information_only = false\n", "");
    let body = "1. Release [low].\n2. Read the far end: [far]. Work out [twice].\n3. Read [warm].\n";
    stage.file("line.md", &titled("Pressure of the line", &tables, body));
    stage.file("a.toml", ANSWERS);
    let ran = stage.bayhand(&["run", "line.md", "--answers", "a.toml"]);
    assert_eq!(ran.code, Some(0), "{}\n{}", ran.out, ran.err);
    let ended = stage.bayhand(&["impact", "PG-1", "--error", "-0.5 bar", "--json"]);
    assert_eq!(ended.code, Some(1), "{}\n{}", ended.out, ended.err);
    let data: Value = serde_json::from_str(&ended.out).expect("JSON");
    let schema: Value = serde_json::from_str(IMPACT_SCHEMA).expect("JSON");
    assert!(fits(&schema, &data, &schema), "{data}");
    let run = &data["runs"][0];
    let turned = |sort: &str| -> Vec<(String, String, String, String)> {
        let all = run[sort].as_array().expect("a list").iter();
        let word = |one: &Value, key: &str| one[key].as_str().expect(key).to_owned();
        all.map(|one| {
            (word(one, "name"), word(one, "after"), word(one, "verdict_before"), word(one, "verdict_after"))
        })
        .collect()
    };
    let owned = |one: (&str, &str, &str, &str)| {
        (one.0.to_owned(), one.1.to_owned(), one.2.to_owned(), one.3.to_owned())
    };
    let readings = [("supply", "2.5 bar", "pass", "fail"), ("far", "1.8 bar", "pass", "fail")].map(owned);
    assert_eq!(turned("readings"), readings);
    assert_eq!(turned("values"), [owned(("twice", "75 N", "pass", "fail"))]);
    assert_eq!(
        (&run["holds"][0]["name"], &run["holds"][0]["released"][0]),
        (&"low".into(), &"Robin Vale (lead)".into())
    );
    assert!(!run["open"].as_array().expect("a list").is_empty(), "{run}");
    let said = words_of(&stage.bayhand(&["impact", "PG-1", "--error", "-0.5 bar"]).out);
    assert!(said.contains("hold point Low pressure: released by Robin Vale (lead) on entry"), "{said}");

    // A wrong sort of error is refused, with why.
    let wrong = stage.bayhand(&["impact", "PG-1", "--error", "+3 N·m"]);
    let why = words_of(&wrong.err);
    assert_eq!((wrong.code, wrong.out.as_str()), (Some(1), ""), "{why}");
    assert!(why.contains("`N·m` (torque or energy) and `bar` (pressure) do not go together"), "{why}");
    let share = words_of(&stage.bayhand(&["impact", "TH-1", "--error", "+3 %"]).err);
    assert!(share.contains("a share of a temperature means nothing"), "{share}");
    // A thermometer 2 °C low: 39 °C was 41 °C.
    let warm = stage.bayhand(&["impact", "TH-1", "--error", "-2 °C"]);
    assert!(words_of(&warm.out).contains("39 °C, now 41 °C; pass, now fail, 1 °C above"), "{}", warm.out);
}

const ANSWERS: &str = r#"format = 1
clock = "2026-11-25T10:00:00+01:00"
answers = [
    { at = "lead", enter = "Robin Vale" },
    { at = "odometer", enter = "187400 km" },
    { at = "scope", do = "true" },
    { at = "low", do = "true" },
    { at = "gauge", enter = "PG-1", due = "2027-03-31" },
    { at = "supply", enter = "2 bar" },
    { at = "low", enter = "Robin Vale" },
    { at = "far", enter = "1.8 bar" },
    { at = "probe", enter = "TH-1", due = "2027-03-31" },
    { at = "warm", enter = "39 °C" },
    { at = "close", do = "close" },
]
"#;

#[test]
fn an_error_that_says_too_little_is_refused() {
    let stage = Stage::bare();
    for (error, why) in [
        ("8 %", "say which way it was off"),
        ("+8", "this has no unit"),
        ("+0 %", "is not nothing"),
        ("+-8 %", "one sign"),
        ("-100 %", "reads nothing at all"),
        ("+8 furlongz", "furlongz"),
    ] {
        let ended = stage.bayhand(&["impact", "TW-1", "--error", error]);
        assert_eq!(ended.code, Some(2), "{error}: {}", ended.err);
        assert!(words_of(&ended.err).contains(why), "{error}: {}", ended.err);
    }
}
