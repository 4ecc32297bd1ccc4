//! Exactness where `f64` fails.

use std::cmp::Ordering;

use bayhand::quantity::{Num, Quantity, parse_literal};

use super::{q, unit};

/// Every whole degree Fahrenheit from -40 to 1000 that is a Celsius value with at most one decimal:
/// C = (F - 32)/1.8 (NIST SP 811 B.8), so F - 32 is a multiple of nine. Most of them compare unequal in `f64`.
#[test]
fn equal_temperatures_are_equal_on_both_scales() {
    let mut pairs = 0;
    let mut unequal_in_f64 = 0;
    for whole in (-40..=1000_i32).filter(|whole| (whole - 32) % 9 == 0) {
        let fahrenheit = Quantity::new(i64::from(whole), unit("°F"));
        let celsius = Quantity::new(i64::from((whole - 32) / 9 * 5), unit("°C"));
        assert_eq!(celsius.compare(&fahrenheit), Ok(Ordering::Equal), "{celsius} {fahrenheit}");
        assert_eq!(fahrenheit.in_unit(&unit("°C")).unwrap(), celsius);
        assert_eq!(celsius.in_unit(&unit("°F")).unwrap(), fahrenheit);
        pairs += 1;
        let by_f64 = (f64::from(whole) + 459.67) * 5.0 / 9.0;
        unequal_in_f64 += usize::from(by_f64.to_bits() != (celsius.number.to_f64() + 273.15).to_bits());
    }
    assert_eq!(pairs, 116);
    assert!(unequal_in_f64 > 50, "only {unequal_in_f64} of them are wrong in f64: this proves little");
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
    for (fahrenheit, celsius) in
        [("68 °F", "20 °C"), ("-40 °F", "-40 °C"), ("212 °F", "100 °C"), ("158 °F", "70 °C")]
    {
        assert_eq!(q(fahrenheit).in_unit(&unit("°C")).unwrap(), q(celsius));
    }
    // The worked points of the trade, to four decimals: 150 °F is 65.5556 °C.
    for (fahrenheit, celsius) in
        [(150, "65.5556"), (160, "71.1111"), (170, "76.6667"), (200, "93.3333"), (300, "148.8889")]
    {
        let converted = Quantity::new(fahrenheit, unit("°F")).in_unit(&unit("°C")).unwrap();
        assert_eq!(converted.number.with_places(4), celsius);
    }
}

#[test]
fn bar_and_psi() {
    // NIST SP 811 and exact rational arithmetic: 1 bar = 14.503773773020923 psi.
    let psi = q("1 bar").in_unit(&unit("psi")).unwrap().number;
    assert!((psi.to_f64() - 14.503_773_773_020_923).abs() < 4e-15);
    assert_eq!(psi.with_places(12), "14.503773773021");
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
        ("5 Δ°C", "5 Δ°C"),
        ("7", "7"),
        ("35 ft-lb", "35 lbf·ft"),
        ("1/3 qt", "0.33333 qt"),
        ("800 rev/min", "800 rpm"),
    ] {
        assert_eq!(parse_literal(text).unwrap().to_string(), shown);
    }
}
