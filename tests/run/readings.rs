//! Readings: judged exactly, kept as typed, taken again, corrected, accepted as a deviation.

use bayhand::run::{Answer, Answered, Ask, Disposition, Refusal, SlipCheck};

use super::drive::{Drive, name, typed};

const PRESSURE: &str = "[readings.supply]\nwhat = \"air pressure\"\nunit = \"psi\"\nbelow = \"30 psi\"\n\
plausible = [\"0 psi\", \"200 psi\"]\nfails = \"turn the regulator down\"\n";

fn passes(tables: &str, reading: &str, text: &str) -> bool {
    let mut drive = Drive::of(tables, &format!("1. Read [{reading}].\n"));
    drive.enter(text);
    drive.ask() == Ask::Close
}

#[test]
fn limits_are_compared_exactly_across_units() {
    // 1 in = 25.4 mm exactly: NIST SP 811, B.8.
    let bolt = "[readings.bolt]\nwhat = \"length\"\nunit = \"in\"\nmax = \"1 in\"\n";
    assert!(passes(bolt, "bolt", "25.4 mm"));
    assert!(!passes(bolt, "bolt", "25.40001 mm"));
    // 29 CFR 1910.242(b): less than 30 psi = 206.8427 kPa.
    assert!(!passes(PRESSURE, "supply", "207 kPa"));
    assert!(passes(PRESSURE, "supply", "206.8 kPa"));
    assert!(!passes(PRESSURE, "supply", "30 psi"));
}

#[test]
fn a_converted_reading_keeps_what_was_typed() {
    let torque = "[readings.torque]\nwhat = \"torque\"\nunit = \"N·m\"\ninformation_only = true\n";
    let mut drive = Drive::of(torque, "1. Read [torque].\n");
    drive.enter("35 lbf·ft");
    let Answered::Quantity(entry) = &drive.view().latest(&name("torque")).unwrap().value else { panic!() };
    assert_eq!(entry.text, "35 lbf·ft");
    assert_eq!(entry.typed.to_string(), "35 lbf·ft");
    // 35 × 1.3558179483314004 N·m: NIST SP 811, B.8.
    assert!((entry.asked.number.to_f64() - 35.0 * 1.355_817_948_331_400_4).abs() < 1e-12);
}

#[test]
fn a_failed_reading_holds_the_run_until_it_is_taken_again() {
    let mut drive = Drive::of(PRESSURE, "1. Read [supply].\n2. Blow.\n");
    drive.enter("32 psi");
    assert_eq!(drive.ask(), Ask::Failed(name("supply")));
    assert_eq!(drive.status("1.1"), "failed");
    assert!(matches!(drive.answer(Answer::Done), Err(Refusal::NotAsked { .. })));
    drive.take(Answer::Again { reason: "regulator turned down".to_owned() });
    assert_eq!(drive.ask(), Ask::Reading(name("supply")));
    drive.enter("28 psi");
    assert_eq!(drive.label(), "1.2");
    assert_eq!(drive.state.attempts(&name("supply")), 2);
}

#[test]
fn a_failed_reading_is_gone_on_with_only_as_a_deviation() {
    let mut drive = Drive::of(PRESSURE, "1. Read [supply].\n2. Blow.\n");
    drive.enter("32 psi");
    drive.take(Answer::Accept {
        disposition: Disposition::UseAsIs,
        reason: "gauge reads 4 psi high".to_owned(),
    });
    assert_eq!(drive.label(), "1.2");
    assert_eq!(drive.state.deviations.len(), 1);
    assert_eq!(drive.state.deviations[0].disposition.as_ref().unwrap().0, Disposition::UseAsIs);
}

#[test]
fn an_acceptance_ends_with_the_next_entry() {
    let mut drive = Drive::of(PRESSURE, "1. Read [supply].\n2. Blow.\n");
    drive.enter("32 psi");
    drive.take(Answer::Accept { disposition: Disposition::UseAsIs, reason: "gauge reads high".to_owned() });
    let correction = Answer::Correct {
        entry: None,
        reading: name("supply"),
        text: "45 psi".to_owned(),
        reason: "misread the scale".to_owned(),
    };
    drive.take(correction);
    assert_eq!(drive.ask(), Ask::Failed(name("supply")));
}

#[test]
fn an_unlikely_value_is_asked_about_once() {
    let mut drive = Drive::of(PRESSURE, "1. Read [supply].\n");
    let before = drive.state.clone();
    assert!(matches!(drive.answer(typed("4500 psi")), Err(Refusal::Unlikely { .. })));
    assert_eq!(drive.state, before);
    drive.take(Answer::Typed { text: "4500 psi".to_owned(), slip: SlipCheck::Sure });
    assert_eq!(drive.ask(), Ask::Failed(name("supply")));
}

#[test]
fn an_ambiguous_number_is_asked_about() {
    let length = "[readings.length]\nwhat = \"length\"\nunit = \"mm\"\ninformation_only = true\n";
    let mut drive = Drive::of(length, "1. Read [length].\n");
    assert!(matches!(drive.answer(typed("1,234")), Err(Refusal::Unreadable(_))));
    drive.enter("0,5");
    assert_eq!(drive.ask(), Ask::Close);
}

#[test]
fn a_limit_follows_the_reading_that_it_depends_on() {
    let tables = "[readings.supply]\nwhat = \"supply\"\nunit = \"bar\"\ninformation_only = true\n\
[readings.line]\nwhat = \"line\"\nunit = \"bar\"\nmin = \"0.6 * supply\"\n";
    let mut drive = Drive::of(tables, "1. Read [supply].\n2. Read [line].\n");
    drive.enter("5 bar");
    drive.enter("3 bar");
    assert_eq!(drive.ask(), Ask::Close);
    let slip = Answer::Correct {
        entry: None,
        reading: name("supply"),
        text: "6 bar".to_owned(),
        reason: "misread".to_owned(),
    };
    drive.take(slip);
    assert_eq!(drive.ask(), Ask::Failed(name("line")));
}

#[test]
fn a_computed_value_that_fails_reopens_the_readings_behind_it() {
    // 1 US qt in 22 s is 2.58 L/min: exact factors of NIST SP 811, B.8 (0.946352946 L / 22 s × 60).
    let tables = "[readings.caught]\nwhat = \"caught\"\nunit = \"L\"\ninformation_only = true\n\
[readings.took]\nwhat = \"took\"\nunit = \"s\"\ninformation_only = true\n\
[values.flow]\nwhat = \"flow\"\nunit = \"L/min\"\nformula = \"caught / took\"\nmin = \"2 L/min\"\n";
    let mut drive = Drive::of(tables, "1. Catch [caught] in [took]: [flow].\n2. Close up.\n");
    drive.enter("1.00 qt");
    drive.enter("40 s");
    assert_eq!(drive.ask(), Ask::Failed(name("flow")));
    drive.take(Answer::Again { reason: "flushed once more".to_owned() });
    drive.enter("1.00 qt");
    drive.enter("22 s");
    assert_eq!(drive.label(), "1.2");
    let judged = drive.view().judge(&name("flow")).unwrap();
    assert!(judged.judgement.lets_go_on());
    let shown = drive.view().trace(&name("flow")).unwrap().show_in(&judged.quantity.unwrap().unit);
    assert_eq!(shown, "caught / took = 1.00 qt / 22 s = 2.58 L/min");
    assert_eq!(drive.state.attempts(&name("took")), 2);
}

#[test]
fn choices_counts_texts_and_dates_are_checked_by_kind() {
    let tables = "[readings.look]\nwhat = \"look\"\nchoices = [\"clear\", \"milky\"]\naccept = [\"clear\"]\n\
[readings.rags]\nwhat = \"rags\"\nkind = \"count\"\nmax = 4\n\
[readings.best]\nwhat = \"best before\"\nkind = \"date\"\nmin = 2026-11-21\n\
[readings.label]\nwhat = \"label\"\nkind = \"text\"\n";
    let mut drive =
        Drive::of(tables, "1. See [look].\n2. Count [rags].\n3. Read [best].\n4. Copy [label].\n");
    assert!(matches!(drive.answer(typed("ok")), Err(Refusal::NotAChoice { .. })));
    drive.enter("1");
    assert!(matches!(drive.answer(typed("2.5")), Err(Refusal::NotACount(_))));
    assert!(matches!(drive.answer(typed("-1")), Err(Refusal::NotACount(_))));
    drive.enter("4");
    assert!(matches!(drive.answer(typed("soon")), Err(Refusal::NotADate(_))));
    drive.enter("2026-11-20");
    assert_eq!(drive.ask(), Ask::Failed(name("best")));
    drive.take(Answer::Again { reason: "took another can".to_owned() });
    drive.enter("2026-11-21");
    assert!(matches!(drive.answer(typed("  ")), Err(Refusal::Empty(_))));
    drive.enter("no water");
    assert_eq!(drive.ask(), Ask::Close);
}

/// How many values rest on one another.
const DEEP: usize = 200;

#[test]
fn values_upon_values_are_worked_out_once_each_however_deep() {
    use std::fmt::Write as _;
    let mut tables =
        String::from("[readings.v0]\nwhat = \"first\"\nunit = \"mm\"\ninformation_only = true\n");
    for place in 1..=DEEP {
        let before = place - 1;
        let _ = write!(
            tables,
            "[values.v{place}]\nwhat = \"next\"\nunit = \"mm\"\nformula = \"(v{before} + v{before}) / 2\"\n"
        );
    }
    let seen: String = (1..=DEEP).fold(String::new(), |seen, place| seen + &format!("[v{place}] "));
    let mut drive = Drive::of(&tables, &format!("1. Read [v0].\n2. See {seen}.\n"));
    drive.enter("3 mm");
    let last = drive.view().judge(&name(&format!("v{DEEP}"))).unwrap();
    assert_eq!(last.quantity.unwrap().to_string(), "3 mm");
}
