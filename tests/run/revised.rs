//! The odometer and values of the vehicle: corrected with a reason, what stood there before kept.

use bayhand::run::{Answer, Ask, Disposition, ParticularAnswer, Refusal};

use super::drive::{Drive, book, name, text};

const GAP: &str = "[vehicle.gap]\nwhat = \"least gap\"\nunit = \"mm\"\nfind = \"manual\"\n\
[readings.plug]\nwhat = \"gap of the plug\"\nunit = \"mm\"\nmin = 'gap'\n";

fn begun() -> Drive {
    let mut drive = Drive::begin(book(&text(GAP, "1. Read [plug].\n2. Wipe.\n")));
    drive.take(Answer::Person("Robin Vale".to_owned()));
    drive.enter("187400 km");
    drive
}

fn sourced(value: &str, source: &str) -> Answer {
    Answer::Sourced { text: value.to_owned(), source: source.to_owned() }
}

fn correct_gap(value: &str, source: &str, reason: &str) -> Answer {
    Answer::Particular(ParticularAnswer::CorrectVehicleValue {
        name: name("gap"),
        text: value.to_owned(),
        source: source.to_owned(),
        reason: reason.to_owned(),
    })
}

fn correct_odometer(value: &str, reason: &str) -> Answer {
    Answer::Particular(ParticularAnswer::CorrectOdometer {
        text: value.to_owned(),
        reason: reason.to_owned(),
    })
}

#[test]
fn a_vehicle_value_without_its_source_is_refused() {
    let mut drive = begun();
    assert_eq!(drive.ask(), Ask::VehicleValue(name("gap")));
    assert!(matches!(drive.answer(sourced("0.8 mm", "  ")), Err(Refusal::Empty("the source"))));
    drive.take(sourced("0.8 mm", "manual, page 12"));
    assert!(matches!(drive.answer(correct_gap("0.9 mm", "", "misread")), Err(Refusal::Empty("the source"))));
    assert!(matches!(drive.answer(correct_gap("0.9 mm", "page 12", " ")), Err(Refusal::Empty("the reason"))));
}

#[test]
fn a_corrected_vehicle_value_moves_the_limits_that_rest_on_it() {
    let mut drive = begun();
    drive.take(sourced("0.8 mm", "manual, page 12"));
    drive.enter("0.8 mm");
    assert_eq!(drive.label(), "1.2");
    drive.take(correct_gap("0.9 mm", "manual, page 13", "the wrong engine"));
    assert_eq!(drive.ask(), Ask::Failed(name("plug")));
    let before = &drive.state.particulars.vehicle[&name("gap")];
    assert_eq!((before.len(), before[0].value.shown().as_str()), (1, "0.8 mm"));
    assert_eq!(before[0].source.as_deref(), Some("manual, page 12"));
    drive.take(Answer::Accept { disposition: Disposition::UseAsIs, reason: "ordered".to_owned() });
    assert_eq!(drive.label(), "1.2");
    drive.take(correct_gap("0.95 mm", "manual, page 14", "the wrong year"));
    assert_eq!(drive.ask(), Ask::Failed(name("plug")), "what was accepted was another limit");
}

#[test]
fn a_corrected_odometer_keeps_what_was_entered() {
    let mut drive = begun();
    drive.take(sourced("0.8 mm", "manual, page 12"));
    assert!(matches!(drive.answer(correct_odometer("-5 km", "slip")), Err(Refusal::BelowZero(_))));
    assert!(matches!(drive.answer(correct_odometer("178400 km", "")), Err(Refusal::Empty("the reason"))));
    drive.take(correct_odometer("178400 km", "two digits exchanged"));
    assert_eq!(drive.state.odometer.as_ref().unwrap().typed.to_string(), "178400 km");
    let before = &drive.state.particulars.odometer[0];
    assert_eq!(
        (before.value.shown().as_str(), before.reason.as_str()),
        ("187400 km", "two digits exchanged")
    );
}

#[test]
fn nothing_is_corrected_before_it_was_entered() {
    let mut drive = Drive::begin(book(&text(GAP, "1. Read [plug].\n")));
    assert!(matches!(drive.answer(correct_odometer("1 km", "slip")), Err(Refusal::NeverTaken { .. })));
    assert!(matches!(drive.answer(correct_gap("1 mm", "page 1", "slip")), Err(Refusal::NeverTaken { .. })));
}

/// The odometer is asked for where the procedure says so; elsewhere it can be told, once.
#[test]
fn an_odometer_that_is_not_asked_for_can_be_told() {
    let unasked = text(GAP, "1. Read [plug].\n").replace("odometer = true\n", "");
    let mut drive = Drive::begin(book(&unasked));
    drive.take(Answer::Person("Robin Vale".to_owned()));
    assert_eq!(drive.ask(), Ask::VehicleValue(name("gap")));
    let told = |shown: &str| Answer::Particular(ParticularAnswer::Odometer(shown.to_owned()));
    assert!(matches!(drive.answer(told("-1 km")), Err(Refusal::BelowZero(_))));
    drive.take(told("187400 km"));
    assert_eq!(drive.state.odometer.as_ref().unwrap().typed.to_string(), "187400 km");
    assert_eq!(drive.ask(), Ask::VehicleValue(name("gap")));
    assert!(
        matches!(drive.answer(told("187401 km")), Err(Refusal::NotAsked { .. })),
        "told again, it is a correction"
    );
    drive.take(correct_odometer("178400 km", "two digits exchanged"));
}

const GEARS: &str = "[vehicle.gears]\nwhat = \"how many gears\"\nchoices = [\"four gears\", \"six gears\"]\nfind = \"plate\"\n\
[conditions.six]\nif = 'gears == \"six gears\"'\n";

/// A value of words that the procedure lists is one of these, as it is written there.
#[test]
fn a_vehicle_value_with_choices_is_one_of_them() {
    let mut drive = Drive::of(GEARS, "1. Look at the plate: [gears].\n2. [six] Count again.\n3. Wipe.\n");
    let refused = drive.answer(sourced("five gears", "plate"));
    assert!(matches!(refused, Err(Refusal::NotAChoice { .. })), "{refused:?}");
    drive.take(sourced("SIX gears", "plate"));
    drive.done();
    assert_eq!(drive.label(), "1.2", "the condition holds");
    let four = ParticularAnswer::CorrectVehicleValue {
        name: name("gears"),
        text: "1".to_owned(),
        source: "plate".to_owned(),
        reason: "misread".to_owned(),
    };
    drive.take(Answer::Particular(four));
    assert_eq!(drive.label(), "1.3", "the first of the list is four gears");
}

/// A list has as many different names as it must have.
#[test]
fn a_list_has_at_least_so_many_names() {
    let tables = "[readings.faults]\nwhat = \"faults\"\nkind = \"list\"\nat_least = 2\n";
    let mut drive = Drive::of(tables, "1. Write down [faults].\n2. Wipe.\n");
    for few in ["E1", "E1, E1 ,", "E1,"] {
        let refused = drive.answer(super::drive::typed(few));
        assert!(matches!(refused, Err(Refusal::TooFewNames { typed: 1, at_least: 2 })), "{few}: {refused:?}");
    }
    assert!(matches!(drive.answer(super::drive::typed(" , ")), Err(Refusal::Empty(_))));
    drive.enter("E1, E2");
    assert_eq!(drive.label(), "1.2");
}
