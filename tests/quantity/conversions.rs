//! Exactness where `f64` fails.

use std::cmp::Ordering;

use bayhand::quantity::{Num, Quantity, parse_literal};

use super::{q, unit};

/// Every whole degree Fahrenheit that is a Celsius value with one decimal: F = 32 + 1.8 C (NIST SP 811 B.8), so
/// C runs in steps of five tenths of nine fifths. Most of these pairs compare unequal in `f64`.
#[test]
fn equal_temperatures_are_equal_on_both_scales() {
    let mut pairs = 0;
    let mut unequal_in_f64 = 0;
    for tenths in -400_i64..=3000 {
        let fahrenheit_tenths = 320 + tenths * 9 / 5;
        if tenths % 5 != 0 || fahrenheit_tenths % 10 != 0 {
            continue;
        }
        let celsius = Quantity::new(Num::ratio(i128::from(tenths), 10).unwrap(), unit("°C"));
        let fahrenheit = Quantity::new(Num::from(fahrenheit_tenths / 10), unit("°F"));
        assert_eq!(
            celsius.compare(&fahrenheit),
            Ok(Ordering::Equal),
            "{celsius} {fahrenheit}"
        );
        assert_eq!(fahrenheit.in_unit(&unit("°C")).unwrap(), celsius);
        pairs += 1;
        let in_f64 = |number: f64, zero: f64, degree: f64| (number + zero) * degree;
        let left = in_f64(celsius.number.to_f64(), 273.15, 1.0);
        let right = in_f64(fahrenheit.number.to_f64(), 459.67, 5.0 / 9.0);
        unequal_in_f64 += usize::from(left.to_bits() != right.to_bits());
    }
    assert_eq!(pairs, 69);
    assert!(
        unequal_in_f64 > 30,
        "the test must cover pairs that f64 gets wrong, it has {unequal_in_f64}"
    );
}

#[test]
fn inches_and_millimetres_meet_exactly() {
    for thousandths in 1..2000 {
        let inches = Quantity::new(Num::ratio(thousandths, 1000).unwrap(), unit("in"));
        let millimetres = Quantity::new(Num::ratio(thousandths * 254, 10_000).unwrap(), unit("mm"));
        assert_eq!(inches.compare(&millimetres), Ok(Ordering::Equal));
        assert_eq!(inches.in_unit(&unit("mm")).unwrap(), millimetres);
    }
}

#[test]
fn known_temperatures() {
    for (fahrenheit, celsius) in [
        ("68 °F", "20 °C"),
        ("-40 °F", "-40 °C"),
        ("212 °F", "100 °C"),
        ("158 °F", "70 °C"),
    ] {
        assert_eq!(q(fahrenheit).in_unit(&unit("°C")).unwrap(), q(celsius));
    }
    // The worked points of the trade, to four decimals: 150 °F is 65.5556 °C.
    for (fahrenheit, celsius) in [
        (150, "65.5556"),
        (160, "71.1111"),
        (170, "76.6667"),
        (200, "93.3333"),
        (300, "148.8889"),
    ] {
        let converted = Quantity::new(fahrenheit, unit("°F"))
            .in_unit(&unit("°C"))
            .unwrap();
        assert_eq!(converted.number.with_places(4), celsius);
    }
}

#[test]
fn bar_and_psi() {
    // NIST SP 811 and exact rational arithmetic: 1 bar = 14.503773773020923 psi.
    let psi = q("1 bar").in_unit(&unit("psi")).unwrap().number;
    assert_eq!(psi.with_places(15), "14.503773773020923");
    assert!(psi.is_exact());
}

#[test]
fn a_radian_is_approximate_but_stays_itself() {
    let angle = q("1 rad");
    assert_eq!(angle.in_unit(&unit("rad")).unwrap(), angle);
    // 1 rad = 57.29577951308232 degrees (NIST SP 811 B.8: 5.729578 E+01).
    let degrees = angle.in_unit(&unit("°")).unwrap().number;
    assert!(!degrees.is_exact());
    assert_eq!(degrees.with_places(11), "57.29577951308");
}

#[test]
fn quantities_are_shown_with_their_unit() {
    for (text, shown) in [
        ("12.50 mm", "12.5 mm"),
        ("90 deg", "90°"),
        ("4 %", "4 %"),
        ("5 Δ°C", "5 °C"),
        ("7", "7"),
        ("35 ft-lb", "35 lbf·ft"),
        ("1/3 qt", "0.33333 qt"),
        ("800 rev/min", "800 rpm"),
    ] {
        assert_eq!(parse_literal(text).unwrap().to_string(), shown);
    }
}
