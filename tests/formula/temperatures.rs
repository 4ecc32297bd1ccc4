//! A temperature on a scale and a difference of temperatures are two things.

use bayhand::formula::Type;
use bayhand::quantity::Dimension;

use super::world::{check, is_true, result};

const NAMES: &str = "pan = 72.8 °C\nroom = 68 °F\nrise = 5 K\n";

const DIFFERENCE: Type = Type::amount(Dimension::TEMPERATURE);

fn gives(formula: &str) -> Option<Type> {
    check(formula, NAMES).ok().map(|typed| typed.result_type())
}

#[test]
fn what_a_temperature_can_be_used_for() {
    assert_eq!(gives("pan - room"), Some(DIFFERENCE));
    assert_eq!(gives("pan + rise"), Some(Type::TEMPERATURE));
    assert_eq!(gives("rise + pan"), Some(Type::TEMPERATURE));
    assert_eq!(gives("pan - rise"), Some(Type::TEMPERATURE));
    assert_eq!(gives("mean(pan, room, 300 °F)"), Some(Type::TEMPERATURE));
    assert_eq!(gives("max(pan, room) - min(pan, room)"), Some(DIFFERENCE));
    assert_eq!(gives("if pan > room then pan else room"), Some(Type::TEMPERATURE));
    assert_eq!(gives("2 * (pan - room)"), Some(DIFFERENCE));
}

#[test]
fn what_it_cannot_be_used_for() {
    let wrong = [
        "pan + room",
        "2 * pan",
        "pan / 2",
        "pan * room",
        "-pan",
        "pan ^ 2",
        "rise - pan",
        "pan == rise",
        "pan < 5 K",
        "mean(pan, rise)",
        "abs(pan)",
        "sqrt(pan)",
        "round(pan, to = 1 K)",
        "if true then pan else rise",
        "pan in K",
        "rise in °C",
    ];
    for formula in wrong {
        assert_eq!(gives(formula), None, "{formula}");
    }
}

#[test]
fn a_minus_sign_before_a_temperature_belongs_to_it() {
    assert!(is_true("-40 °C == -40 °F"));
    assert!(is_true("5 °C - -5 °C == 10 K"));
    assert!(is_true("- 40 °C < 0 °C"));
}

/// The mean of 0 °C and 212 °F is halfway between freezing and boiling: 50 °C, whatever the scale.
#[test]
fn a_mean_does_not_depend_on_the_scale() {
    assert!(is_true("mean(0 °C, 212 °F) == 50 °C"));
    assert!(is_true("mean(32 °F, 100 °C) == 122 °F"));
    assert_eq!(result("mean(0 °C, 212 °F)").unit.symbol(), "°C");
}
