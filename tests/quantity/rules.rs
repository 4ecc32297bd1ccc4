//! What can be done with temperatures and what cannot.

use bayhand::quantity::{Kind, Mismatch, Num, Quantity};

use super::{q, unit};

#[test]
fn two_temperatures_have_a_difference() {
    let difference = q("163 °F").minus(&q("120 °F")).unwrap();
    assert_eq!(difference.kind(), Kind::Difference);
    assert_eq!(difference.to_string(), "43 Δ°F");
    assert_eq!(difference.unit.symbol(), "Δ°F");
    // 43 °F of difference are 43/1.8 K, NIST SP 811 B.8.
    assert_eq!(difference.in_unit(&unit("K")).unwrap().number, Num::ratio(430, 18).unwrap());
}

#[test]
fn temperatures_are_never_added_or_multiplied() {
    assert_eq!(q("163 °F").plus(&q("120 °F")), Err(Mismatch::SumOfPoints));
    assert_eq!(q("20 °C").times(&q("2")), Err(Mismatch::MultipleOfPoint));
    assert_eq!(q("20 °C").per(&q("2")), Err(Mismatch::MultipleOfPoint));
    assert_eq!(q("20 °C").scaled(Num::from(2)), Err(Mismatch::MultipleOfPoint));
    assert_eq!(q("5 K").minus(&q("20 °C")), Err(Mismatch::DifferenceLessPoint));
    assert!(matches!(q("20 °C").compare(&q("20 K")), Err(Mismatch::Kind { .. })));
}

#[test]
fn a_temperature_and_a_difference_make_a_temperature() {
    assert_eq!(q("20 °C").plus(&q("9 Δ°F")).unwrap(), q("25 °C"));
    assert_eq!(q("9 Δ°F").plus(&q("20 °C")).unwrap(), q("25 °C"));
    assert_eq!(q("20 °C").minus(&q("5 K")).unwrap(), q("15 °C"));
}

#[test]
fn amounts_follow_their_units() {
    let flow = q("1.00 qt").per(&q("22 s")).unwrap().unwrap();
    assert_eq!(flow.to_string(), "0.045455 qt/s");
    // 1 US qt = 0.946352946 L (NIST SP 811): 0.946352946 / 22 × 60 = 2.58096... L/min.
    let litres = flow.in_unit(&unit("L/min")).unwrap();
    assert_eq!(litres.number, Num::ratio(946_352_946 * 60, 22 * 1_000_000_000).unwrap());
    assert_eq!(q("1 ft").plus(&q("3 in")).unwrap(), q("1.25 ft"));
    assert_eq!(q("1").plus(&q("25 %")).unwrap(), q("1.25"));
    assert_eq!(q("4 qt").per(&q("0 s")), Ok(None));
    assert!(matches!(q("1 ft").plus(&q("1 s")), Err(Mismatch::Dimension { .. })));
}

#[test]
fn a_mismatch_tells_what_the_two_are() {
    let problem = q("1 bar").compare(&q("1 N·m")).unwrap_err();
    assert_eq!(
        problem.to_string(),
        "`bar` (pressure) and `N·m` (torque or energy) do not go together; give both in units of the same thing"
    );
    let problem = q("1 K").compare(&Quantity::new(Num::ONE, unit("°C"))).unwrap_err();
    assert!(
        problem.to_string().starts_with("`K` (temperature difference) and `°C` (temperature)"),
        "{problem}"
    );
}
