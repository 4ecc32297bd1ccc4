//! Judging by limits: exact, inclusive unless said, and told with the distance.

use bayhand::quantity::{Limits, Mismatch, Outcome, Side, judge};

use super::q;

fn said(value: &str, limits: &Limits) -> String {
    judge(&q(value), limits).unwrap().to_string()
}

#[test]
fn an_inch_is_met_by_its_millimetres() {
    assert_eq!(said("25.4 mm", &Limits::max(q("1 in"))), "pass, exactly on the maximum");
    assert_eq!(said("25.4 mm", &Limits::min(q("1 in"))), "pass, exactly on the minimum");
    assert_eq!(said("25.41 mm", &Limits::max(q("1 in"))), "fail, 0.01 mm above the maximum of 1 in");
    assert_eq!(
        said("25.4 mm", &Limits::below(q("1 in"))),
        "fail, exactly on the limit of 1 in and must be below it"
    );
    assert_eq!(
        said("25.4 mm", &Limits::above(q("1 in"))),
        "fail, exactly on the limit of 1 in and must be above it"
    );
}

#[test]
fn thirty_psi_lies_between_two_readings_in_kilopascals() {
    // NIST SP 811 B.8: 30 psi = 206.8427187950508 kPa.
    for limits in [Limits::max(q("30 psi")), Limits::below(q("30 psi"))] {
        assert_eq!(judge(&q("207 kPa"), &limits).unwrap().outcome, Outcome::Fail);
        assert_eq!(judge(&q("206.8 kPa"), &limits).unwrap().outcome, Outcome::Pass);
    }
    assert_eq!(said("207 kPa", &Limits::below(q("30 psi"))), "fail, 0.157 kPa above the limit of 30 psi");
    assert_eq!(said("206.8 kPa", &Limits::below(q("30 psi"))), "pass, 0.0427 kPa below the limit");
}

#[test]
fn nothing_is_rounded_into_tolerance() {
    let limits = Limits::max(q("55.00 mm"));
    assert_eq!(said("55.004 mm", &limits), "fail, 0.004 mm above the maximum of 55 mm");
    assert_eq!(said("55.000000001 mm", &limits), "fail, 0.000000001 mm above the maximum of 55 mm");
}

#[test]
fn the_nearer_limit_is_told() {
    let limits = Limits::between(q("34 N·m"), q("40 N·m"));
    assert_eq!(said("37.2 N·m", &limits), "pass, 2.8 N·m below the maximum");
    assert_eq!(said("35.5 N·m", &limits), "pass, 1.5 N·m above the minimum");
    assert_eq!(said("30 N·m", &limits), "fail, 4 N·m below the minimum of 34 N·m");
    let verdict = judge(&q("41 N·m"), &limits).unwrap();
    assert_eq!(verdict.distance.unwrap().side, Side::Upper);
}

#[test]
fn a_distance_of_temperatures_is_a_difference() {
    assert_eq!(said("176 °F", &Limits::max(q("82 °C"))), "pass, 3.6 °F below the maximum");
    let verdict = judge(&q("176 °F"), &Limits::max(q("80 °C"))).unwrap();
    let distance = verdict.distance.unwrap();
    assert!(distance.amount.number.is_zero());
    assert_eq!(distance.amount.unit.symbol(), "Δ°F");
}

#[test]
fn limits_are_told_in_words() {
    for (limits, words) in [
        (Limits::between(q("34 N·m"), q("40 N·m")), "34 N·m to 40 N·m"),
        (Limits::between(q("2 L"), q("2 L")), "exactly 2 L"),
        (Limits::min(q("2.5 L/min")), "at least 2.5 L/min"),
        (Limits::max(q("1 in")), "at most 1 in"),
        (Limits::above(q("5 °C")), "above 5 °C"),
        (Limits::below(q("30 psi")), "below 30 psi"),
        (
            Limits { lower: Limits::above(q("0 psi")).lower, ..Limits::max(q("30 psi")) },
            "above 0 psi and at most 30 psi",
        ),
        (Limits::default(), "no limit"),
    ] {
        assert_eq!(limits.to_string(), words);
    }
}

#[test]
fn without_limits_everything_passes_and_says_so() {
    assert!(Limits::default().is_empty());
    assert_eq!(said("1 mm", &Limits::default()), "pass, no limit to judge by");
}

#[test]
fn limits_of_something_else_are_a_mismatch() {
    let limits = Limits::max(q("30 psi"));
    assert!(matches!(judge(&q("30 mm"), &limits), Err(Mismatch::Dimension { .. })));
    assert!(matches!(judge(&q("30 °C"), &Limits::max(q("30 K"))), Err(Mismatch::Kind { .. })));
}
