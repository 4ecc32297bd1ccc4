//! The first lines count what was not as it should be, also what was put right; limits in force say that they were kept.

use bayhand::procedure::Name;
use bayhand::run::{Answer, Disposition, FlowAnswer, ParticularAnswer, PeopleAnswer};

use super::same_fields::compare;
use super::times::Own;

const GAP: &str = "[readings.gap]\nwhat = \"gap\"\nunit = \"mm\"\nmax = \"1 mm\"\nfails = \"Set it.\"\n";

fn again(own: &mut Own) {
    own.give(Answer::Again { reason: "set it".to_owned() });
}

#[test]
fn a_reading_that_failed_and_was_taken_again_is_counted() {
    let mut own = Own::of(GAP, "1. Read [gap].\n");
    own.typed("2 mm");
    again(&mut own);
    own.typed("0.5 mm");
    let (record, text) = own.record();
    assert_eq!((record.outcome.readings_failed, record.outcome.taken_again), (1, 1));
    assert_eq!(record.result, "completed; 1 reading failed (taken again)");
    assert!(text.contains("Result: completed; 1 reading failed (taken again)\nDeviations: 0\n"), "{text}");
    compare(&record);
}

/// An entry that was wrong is no reading that failed.
#[test]
fn a_slip_of_the_pen_is_not_counted() {
    let mut own = Own::of(GAP, "1. Read [gap].\n");
    own.typed("2 mm");
    let (reading, text, reason) = (Name::from("gap"), "0.2 mm".to_owned(), "a slip".to_owned());
    own.give(Answer::Correct { entry: None, reading, text, reason });
    let (record, _) = own.record();
    assert_eq!(record.result, "completed without deviation");
}

/// The procedure has a path for it, so that nobody had to decide: it failed all the same.
#[test]
fn a_failure_that_an_authored_path_took_up_is_counted() {
    let tables = format!("{GAP}[conditions.wide]\nfailed = \"gap\"\n");
    let mut own = Own::of(&tables, "1. Read [gap].\n2. [wide] Put in a shim.\n3. Wipe.\n");
    own.typed("2 mm");
    own.give(Answer::Done);
    own.give(Answer::Done);
    let (record, _) = own.record();
    assert_eq!(record.deviations.count, 0);
    assert_eq!(record.result, "completed; 1 reading failed");
}

#[test]
fn passes_that_do_not_count_are_counted() {
    let tables = "[repeats.look]\nwhat = \"two looks\"\ntimes = 2\n";
    let mut own = Own::of(tables, "1. [look] Look at it.\n2. Wipe.\n");
    own.give(Answer::Done);
    own.give(Answer::Flow(FlowAnswer::Invalid { reason: "the lamp was out".to_owned() }));
    for _ in 0..3 {
        own.give(Answer::Done);
    }
    let (record, text) = own.record();
    assert_eq!(record.result, "completed; 1 pass does not count");
    let ends: Vec<_> =
        record.repeats[0].passes.iter().map(|pass| (pass.pass.as_str(), pass.counts)).collect();
    assert_eq!(ends, [("pass 1 of 2", false), ("pass 2 (1 of 2)", true), ("pass 3 (2 of 2)", true)]);
    let aside = record.steps[0].place.aside.as_ref().unwrap();
    assert_eq!((aside.how.as_str(), aside.reason.as_str()), ("does not count", "the lamp was out"));
    assert!(text.contains("DOES NOT COUNT: the lamp was out"), "{text}");
    compare(&record);
}

/// Beyond its ceiling nothing is judged: the hold point is verified again, and it is taken again. It was beyond it.
#[test]
fn a_ceiling_that_was_exceeded_is_counted() {
    let tables = "[holds.safe]\nwhat = \"pump safe\"\nconfirm = [\"relief open\"]\nrelease = \"lead\"\n\
[readings.boost]\nwhat = \"boost\"\nunit = \"bar\"\nmax = \"4 bar\"\nnever_above = \"6 bar\"\nopens = \"safe\"\n\
fails = \"Open the relief.\"\n";
    let mut own = Own::of(tables, "1. Make it safe: [safe].\n2. Read [boost].\n");
    let verify = |own: &mut Own| {
        own.give(Answer::True);
        own.give(Answer::Release { said: "RV".to_owned() });
    };
    verify(&mut own);
    own.typed("7 bar");
    verify(&mut own);
    own.typed("3 bar");
    let (record, _) = own.record();
    assert_eq!(record.result, "completed; 1 reading beyond its ceiling");
    let hold = &record.holds[0].verifications;
    assert_eq!(hold.len(), 2);
    assert_eq!(record.readings[0].attempts[0].judged.as_ref().unwrap().verdict, "not judged");
}

const COOL: &str = "[watches.cool]\nwhat = \"the oil stays cool\"\nunit = \"°C\"\nbelow = \"40 °C\"\nreadings = [\"oil\"]\n\
[readings.oil]\nwhat = \"oil\"\nunit = \"°C\"\ninformation_only = true\n\
[repeats.row]\nwhat = \"a row\"\ntimes = 2\n";
const COOLING: &str =
    "1. Keep it cool from here: [cool].\n2. [row] Read [oil].\n3. Up to here: [cool].\n4. Wipe.\n";

fn rows(own: &mut Own, temperatures: [&str; 2]) {
    own.give(Answer::Done);
    for temperature in temperatures {
        own.typed(temperature);
        if temperature > "40" {
            let (disposition, reason) = (Disposition::UseAsIs, "for a moment".to_owned());
            own.give(Answer::Accept { disposition, reason });
            own.give(Answer::Flow(FlowAnswer::Counts));
        }
    }
    own.give(Answer::Done);
    own.give(Answer::Done);
}

#[test]
fn a_limit_in_force_that_was_kept_says_so() {
    let mut own = Own::of(COOL, COOLING);
    rows(&mut own, ["20 °C", "30 °C"]);
    let (record, text) = own.record();
    let cool = &record.limits_in_force[0];
    assert_eq!(cool.verdict, "kept");
    assert_eq!(cool.since.as_ref().unwrap().entry, record.steps[0].changes[0].when.entry);
    assert_eq!(cool.until.as_ref().unwrap().entry, record.steps[3].changes[0].when.entry);
    let passes: Vec<_> = cool.readings.iter().map(|reading| reading.place.pass.as_deref()).collect();
    assert_eq!(passes, [Some("pass 1 of 2"), Some("pass 2 of 2")]);
    assert!(text.contains("the oil stays cool [cool] KEPT"), "{text}");
    compare(&record);
}

#[test]
fn a_limit_in_force_that_was_broken_says_by_what() {
    let mut own = Own::of(COOL, COOLING);
    rows(&mut own, ["20 °C", "45 °C"]);
    let (record, _) = own.record();
    let cool = &record.limits_in_force[0];
    assert_eq!(cool.verdict, "broken");
    assert_eq!(cool.readings[0].broke, None);
    let broke = cool.readings[1].broke.as_deref().unwrap();
    assert!(broke.starts_with("5 °C above the limit"), "{broke}");
    assert_eq!(record.readings[1].attempts[0].deviation, Some(1));
    assert_eq!(record.result, "completed with 1 deviation; 1 reading failed, 1 limit in force broken");
}

#[test]
fn a_name_and_an_odometer_that_were_corrected_stand_as_they_were() {
    let mut own = Own::of("", "1. Wipe.\n");
    let (role, person) = (Name::from("lead"), "Robin Veil".to_owned());
    let reason = "misspelt".to_owned();
    own.give(Answer::People(PeopleAnswer::CorrectName { role, person, reason }));
    let (text, reason) = ("178400 km".to_owned(), "digits swapped".to_owned());
    own.give(Answer::Particular(ParticularAnswer::CorrectOdometer { text, reason }));
    own.give(Answer::Done);
    let (record, text) = own.record();
    let lead = &record.people[0];
    assert_eq!((lead.name.as_str(), lead.before[0].name.as_str()), ("Robin Veil", "Robin Vale"));
    assert_eq!(record.vehicle.odometer_before[0].reason, "digits swapped");
    assert!(text.contains("corrected, before: Robin Vale: misspelt"), "{text}");
    compare(&record);
}
