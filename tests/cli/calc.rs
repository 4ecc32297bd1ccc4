//! `bayhand calc`

use bayhand::formula::functions::functions;
use serde_json::Value;

use crate::session::stage::{Ended, Stage};

fn calc(arguments: &[&str]) -> Ended {
    Stage::bare().bayhand(&[&["calc"], arguments].concat())
}

fn data(arguments: &[&str]) -> Value {
    let ended = calc(arguments);
    serde_json::from_str(&ended.out).unwrap_or_else(|error| panic!("{error}: {}{}", ended.out, ended.err))
}

/// 80·18/20 = 72, by hand; in lbf·ft 72 / 1.3558179 = 53.10 (NIST SP 811, B.8).
#[test]
fn the_answer_shows_what_was_understood_and_what_was_assumed() {
    let call = "adapter_setting(torque = 80 N·m, wrench = 18 in, adapter = 2 in)";
    let ended = calc(&[call]);
    assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""));
    assert!(
        ended.out.contains("wrench: 18 in, from the middle of the grip to the square drive\n"),
        "{}",
        ended.out
    );
    assert!(calc(&["2 * 18 inches"]).out.contains("18 inches: 18 in, length\n"));
    assert!(ended.out.contains(&format!("{call} = 72 N·m\n")), "{}", ended.out);
    assert!(ended.out.contains("assumed: `way` of `adapter_setting` is longer"), "{}", ended.out);
    let asked = calc(&[&format!("{call} in lbf·ft")]);
    assert!(asked.out.contains("= 53.1 lbf·ft\nmore digits: 53.104 lbf·ft\n"), "{}", asked.out);
}

/// A nine quart fill of which five and a half are in: no function takes the two in order, since turned round they would
/// give an answer that looks right. By their names they do, and the names are said back.
#[test]
fn two_volumes_need_their_names_and_are_said_back() {
    let ended = calc(&["fluid_to_add(9 qt, 5.5 qt)"]);
    assert_eq!((ended.code, ended.out.as_str()), (Some(1), ""));
    assert!(ended.err.contains("error[argument-unnamed]"), "{}", ended.err);
    assert!(ended.err.contains("`poured` is what was poured out of parts"), "{}", ended.err);
    assert!(!ended.err.contains("this would mend it"), "{}", ended.err);
    let call = "fluid_to_add(drained = 9 qt, poured = 5.5 quarts)";
    let ended = calc(&[call]);
    assert!(
        ended.out.contains("drained: 9 qt, what was caught from the pan\npoured: 5.5 qt, "),
        "{}",
        ended.out
    );
    assert_eq!(data(&[call, "--json"])["given"][1], serde_json::json!({"name": "poured", "value": "5.5 qt"}));
}

/// What a function found to say of these very values stands beside the result: by hand, 5 L out and 1 L put into the
/// converter leave 4 L, so of a first fill of 6 L only 4 go in; 125 000 km is 5000 beyond 60 000 + 60 000; 300 kg at 1 m
/// off 500 kg at 0.5 m leave a centre at (250 - 300)/200 = -0.25 m.
#[test]
fn a_limit_that_was_met_is_said() {
    let before = "fluid_to_add_before_start(6 L, drained = 5 L, prefilled = 1 L)";
    let after = "fluid_to_add_after_start(6 L, drained = 5 L, prefilled = 1 L)";
    let cut = "note: the first fill of 6 L is more than the 4 L that are missing, so only those go in";
    for (call, result, note) in [
        (before, "4 L", cut),
        (after, "0 L", cut),
        (
            "fluid_to_add_before_start(3 L, drained = 5 L, filled = 4 L)",
            "0 L",
            "note: 1 L more is in already than",
        ),
        ("fluid_to_add(5 L, filled = 6 L)", "-1 L", "note: 1 L too much is in"),
        (
            "service_left(125000 km, last = 60000 km, interval = 60000 km)",
            "-5000 km",
            "note: the service is overdue",
        ),
        ("time_to_service(-500 mi, used = 100 mi, over = 1 wk)", "-5 wk", "note: the service is overdue"),
        (
            "centre_after_removal(500 kg, centre = 0.5 m, removed = 300 kg, position = 1 m)",
            "-0.25 m",
            "note: the centre of gravity then lies in front of the front supports",
        ),
    ] {
        let ended = calc(&[call]);
        let unwrapped = ended.out.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(unwrapped.contains(&format!("{call} = {result} {note}")), "{}{}", ended.out, ended.err);
        assert_eq!(data(&[call, "--json"])["notes"].as_array().map(Vec::len), Some(1), "{call}");
    }
    assert!(!calc(&["fluid_to_add_before_start(4 L, drained = 5 L)"]).out.contains("note: "));
}

/// Who works in lbf·ft, quarts or inches is answered in them: 35·18/20 = 31.5 and ±4 % of 35 = 1.4, by hand; 4 qt less a
/// litre is 4 - 1/0.946352946 = 2.9433 qt (NIST SP 811, B.8).
#[test]
fn an_answer_comes_in_the_unit_of_what_was_given() {
    for (call, answer) in [
        ("adapter_setting(35 lbf·ft, wrench = 18 in, adapter = 2 in)", "31.5 lbf·ft"),
        ("torque_tool_tolerance(35 lbf·ft, largest = 100 lbf·ft)", "1.4 lbf·ft"),
        ("fluid_to_add(4 qt, filled = 1 L)", "2.94 qt"),
        ("pull_up_gap(1 in, plate = 13/16 in)", "0.1875 in"),
        // A share is no volume, and a rate no share that was typed.
        ("old_fluid_left(2 qt, holds = 4 qt)", "50 %"),
        ("clean_run_probability(0.5, mornings = 1)", "50 %"),
        // What only came about on the way is no unit of anyone's.
        ("adapter_setting(35 lbf * 1 ft, wrench = 18 in, adapter = 2 in)", "31.5 lbf·ft"),
    ] {
        assert_eq!(data(&[call, "--json"])["result"], answer, "{call}");
    }
}

/// A bill is paid to the last coin: (7.3·96.35 + 310.43)·1.0725 = 1013.785·1.0725 = 1087.2844, and a third of ten is 3.33, by hand.
#[test]
fn money_is_told_to_the_hundredth() {
    for (formula, answer) in [
        ("job_cost(7.3 h, rate = 96.35 money/h, parts = 310.43 money, tax = 7.25 %)", "1087.28 money"),
        ("10 money / 3", "3.33 money"),
        ("0 money - 1234.567 money * 1.0725", "-1324.07 money"),
        ("742.40 money", "742.4 money"),
    ] {
        assert_eq!(data(&[formula, "--json"])["result"], answer, "{formula}");
        assert!(!calc(&[formula]).out.contains("more digits"), "{formula}");
    }
}

/// Several words on the command line are one formula, and a single quantity is read as a person types it. 163 °F are
/// 72.78 °C and -40 °F are -40 °C ((F - 32)/1.8), 5 ft 3 in are 63·2.54 = 160.02 cm, 3 imperial gallons 3·4.54609 L (NIST SP 811).
#[test]
fn what_is_typed_without_quotes_is_read() {
    for (typed, result) in [
        ("1:30 min", "90 s"),
        ("1:30 min in min", "1.5 min"),
        ("0,5 L", "0.5 L"),
        ("163 F in C", "72.8 °C"),
        ("-40 F in C", "-40 °C"),
        ("5 ft 3 in in cm", "160.02 cm"),
        ("3 imp gal in L", "13.63827 L"),
        ("1 qt / 30 s in gal/min", "0.5 gal/min"),
        ("2026-11-29 - 2026-11-01", "28 d"),
    ] {
        let words: Vec<&str> = typed.split(' ').collect();
        let ended = calc(&words);
        assert_eq!(ended.code, Some(0), "{typed}: {}", ended.err);
        assert!(ended.out.contains(&format!("{result}\n")), "{typed}: {}", ended.out);
        assert_eq!(data(&[&words[..], &["--json"]].concat())["result"], result, "{typed}");
        assert_eq!(ended.out, calc(&[typed]).out, "{typed}: quotes change nothing");
    }
    assert!(calc(&["1:30", "min"]).out.starts_with("1:30 min: 90 s, time\n"));
    for (typed, told) in [
        ("1,234 L", "this can be read as 1.234 or as 1234"),
        ("1:99 min", "a time is written `1:30 min`"),
        ("0,5 L + 1 L", "write decimals with a point"),
    ] {
        let ended = calc(&typed.split(' ').collect::<Vec<_>>());
        assert_eq!((ended.code, ended.out.as_str()), (Some(1), ""), "{typed}");
        assert!(ended.err.contains(told), "{typed}: {}", ended.err);
    }
}

/// A word finds the functions that speak of it, in people's words too.
#[test]
fn the_list_is_searched_by_word() {
    let found = calc(&["--list", "dipstick"]);
    assert_eq!(found.code, Some(0));
    assert!(
        found.out.contains("  dipstick_volume: ") && found.out.contains("  level_error_on_slope: "),
        "{}",
        found.out
    );
    assert!(!found.out.contains("job_cost"), "{}", found.out);
    assert!(calc(&["--list", "Explosive", "limit"]).out.starts_with("air\n  share_of_explosive_limit: "));
    let listed = data(&["--list", "driveline", "--json"]);
    assert_eq!((listed.as_array().unwrap().len(), &listed[0]["subject"]), (1, &"driveline".into()));
    let nothing = calc(&["--list", "xyzzy"]);
    assert_eq!((nothing.code, nothing.out.as_str()), (Some(1), ""));
    assert!(nothing.err.contains("`bayhand calc --list` names all functions"), "{}", nothing.err);
}

#[test]
fn every_function_is_listed_and_taught() {
    let list = calc(&["--list"]);
    let listed = data(&["--list", "--json"]);
    let subjects = listed.as_array().unwrap().iter();
    let named: Vec<&str> = subjects
        .flat_map(|subject| subject["functions"].as_array().unwrap())
        .map(|function| function["name"].as_str().unwrap())
        .collect();
    assert!(named.iter().copied().eq(functions().map(|function| function.name)), "{named:?}");
    for name in ["adapter_setting", "stand_load", "scald_time", "round_up"] {
        assert!(list.out.contains(&format!("\n  {name}: ")), "{name}");
        let lesson = calc(&["--help", name]);
        for part in ["Gives ", "Result: ", "Source: ", "Example: "] {
            assert!(lesson.out.contains(part), "{name}: {}", lesson.out);
        }
        assert_eq!(data(&["--help", name, "--json"])["name"], name);
    }
}

#[test]
fn what_is_wrong_is_told_to_people_and_to_programs() {
    let typed = "adapter_seting(80 N·m, 18 in, 2 in)";
    let ended = calc(&[typed]);
    assert_eq!((ended.code, ended.out.as_str()), (Some(1), ""));
    assert!(ended.err.contains("did you mean `adapter_setting`?"), "{}", ended.err);
    let told = data(&[typed, "--json"]);
    assert_eq!((&told["code"], &told["severity"]), (&"function-unknown".into(), &"error".into()));
    assert_eq!(calc(&[typed, "--json"]).code, Some(1));
    let lesson = calc(&["--help", "adapter_seting"]);
    assert_eq!((lesson.code, lesson.out.as_str()), (Some(1), ""));
    assert!(lesson.err.contains("did you mean `adapter_setting`?"), "{}", lesson.err);
}

/// Text from anywhere, and far too much of it, ends in a message.
#[test]
fn hostile_formulas_are_refused() {
    let deep = "(".repeat(2000);
    let long = format!("1{}", " + 1".repeat(20_000));
    for formula in [
        "",
        " ",
        "1 L\u{1b}[31m",
        "\u{202e}1 L",
        "9^9^9",
        "1e400",
        "1/0",
        "0 L / 0 L",
        "total()",
        "((",
        &deep,
        &long,
        "round(1 L, to = 0 L)",
        "stall_speed(1e30, torque = 1e30 N·m) * 1e30^9",
    ] {
        let ended = calc(&[formula]);
        assert_eq!((ended.code, ended.out.as_str()), (Some(1), ""), "{formula:.40}");
        assert!(ended.err.starts_with("error["), "{formula:.40}: {}", ended.err);
        assert!(!ended.err.contains('\u{1b}') && !ended.err.contains('\u{202e}'), "{formula:.40}");
    }
}

/// Every unit of the table stands in the list once, with its name and all its spellings, under what it measures.
#[test]
fn all_units_are_listed_by_what_they_measure() {
    let ended = calc(&["--units"]);
    assert_eq!((ended.code, ended.err.as_str()), (Some(0), ""));
    for (row, unit) in bayhand::quantity::units() {
        let begins = format!("  {}: {}", row.symbol, row.name);
        let line =
            ended.out.lines().find(|line| *line == begins || line.starts_with(&format!("{begins} (also ")));
        let line = line.unwrap_or_else(|| panic!("{}", row.symbol));
        assert!(row.aliases.iter().all(|alias| line.contains(alias)), "{line}");
        let above = ended.out.split(&format!("\n{line}\n")).next().unwrap();
        let heading = above.lines().rfind(|line| !line.starts_with(' ')).unwrap();
        assert!(heading.contains(&unit.dimension().name()), "{line} under {heading}");
    }
    let listed = data(&["--units", "--json"]);
    let count: usize =
        listed.as_array().unwrap().iter().map(|of| of["units"].as_array().unwrap().len()).sum();
    assert_eq!(count, bayhand::quantity::units().len());
}

/// 10^13 three times over is more than 38 digits, which is what an exact number holds here.
#[test]
fn a_result_that_is_not_exact_any_more_says_so() {
    let stage = Stage::bare();
    let exact = stage.bayhand(&["calc", "1000000000007 * 1000000000009"]);
    assert!(exact.code == Some(0) && !exact.out.contains("15 digits"), "{}", exact.out);
    for formula in [
        "10000000000007 * 10000000000009 * 10000000000011",
        "1 / 10000000000007 / 10000000000009 / 10000000000011",
        "10000000000007 ^ 3",
    ] {
        let ended = stage.bayhand(&["calc", formula]);
        assert_eq!(ended.code, Some(0), "{}", ended.err);
        assert!(ended.out.replace('\n', " ").contains("15 digits"), "{formula}\n{}", ended.out);
    }
}
