//! Exact numbers: reading, writing, arithmetic at its edges.

use bayhand::quantity::Num;

fn n(text: &str) -> Num {
    Num::parse_decimal(text).unwrap_or_else(|| panic!("{text}"))
}

#[test]
fn decimals_are_read_exactly() {
    for (text, numerator, denominator) in [
        ("12.5", 25, 2),
        ("-0.1", -1, 10),
        (".5", 1, 2),
        ("1e-3", 1, 1000),
        ("1.5E+3", 1500, 1),
        ("007", 7, 1),
        ("-0", 0, 1),
    ] {
        assert_eq!(Num::parse_decimal(text), Num::ratio(numerator, denominator), "{text}");
    }
    for text in [
        "", ".", "5.", "-", "1.2.3", "1,5", " 1", "1e", "e3", "1e9999", "1e40", "--1", "0x1", "NaN", "inf",
        "½",
    ] {
        assert_eq!(Num::parse_decimal(text), None, "{text}");
    }
}

#[test]
fn exact_text_says_the_number_itself() {
    let third = Num::ONE.checked_div(Num::from(3)).unwrap();
    let cases =
        [(n("35"), "35"), (n("12.70"), "12.7"), (third, "1/3"), (-third, "-1/3"), (n("-0.05"), "-0.05")];
    for (number, text) in cases {
        assert_eq!(number.to_exact_text(), text);
        assert_eq!(Num::from_exact_text(text), Some(number));
    }
    assert_eq!(Num::approx(0.1).to_exact_text(), "~0.1");
    for text in ["", "1/0", "1/-3", "~", "~NaN", "~inf", "1/2/3", "x"] {
        assert_eq!(Num::from_exact_text(text), None, "{text}");
    }
}

#[test]
fn what_does_not_fit_becomes_approximate_and_stays_finite() {
    let huge = n("1e36");
    assert!(!(huge * huge).is_exact());
    assert!(((huge * huge).to_f64() / 1e72 - 1.0).abs() < 1e-12);
    let largest = Num::approx(f64::MAX);
    assert_eq!(largest * largest, largest);
    assert_eq!(largest * largest - largest * largest, Num::ZERO);
    assert_eq!(Num::approx(f64::NAN), Num::ZERO);
    assert_eq!(Num::ratio(i128::MIN, 1), None);
    assert_eq!(Num::ratio(1, 0), None);
}

#[test]
fn division_by_zero_has_no_result() {
    assert_eq!(Num::ONE.checked_div(Num::ZERO), None);
    assert_eq!(Num::ONE.checked_div(Num::approx(0.0)), None);
    assert_eq!(Num::ZERO.powi(-1), None);
    assert_eq!(Num::ZERO.powi(0), Some(Num::ONE));
}

#[test]
fn roots_of_squares_are_exact() {
    assert_eq!(Num::ratio(9, 16).unwrap().sqrt(), Num::ratio(3, 4));
    assert_eq!(n("-1").sqrt(), None);
    let root = n("2").sqrt().unwrap();
    assert!(!root.is_exact());
    assert!((root.to_f64() - std::f64::consts::SQRT_2).abs() < 1e-15);
}

#[test]
fn order_is_exact_across_kinds() {
    // IEEE 754: the f64 nearest to 0.1 is a little above 0.1.
    assert!(Num::approx(0.1) > n("0.1"));
    assert_eq!(Num::approx(0.5), n("0.5"));
    assert!(Num::approx(1e300) > n("1e36"));
    assert!(Num::approx(-1e300) < n("1e36"));
    assert!(Num::approx(1e-300) > Num::ZERO);
    assert!(Num::approx(1e-300) < n("1e-30"));
}

#[test]
fn numbers_are_shown_short() {
    let cases = [
        ("55.004", "55.004"),
        ("55.00", "55"),
        ("0.001", "0.001"),
        ("1234567", "1234567"),
        ("12345678.9", "12345679"),
        ("0.00000012345", "1.2345e-7"),
        ("47.453728191599", "47.454"),
        ("-2.99999999", "-3"),
        ("1e20", "1.0000e20"),
        ("0", "0"),
        ("99999.999999", "100000"),
        ("0.0000001", "0.0000001"),
    ];
    for (number, shown) in cases {
        assert_eq!(n(number).shown(), shown);
    }
    assert_eq!(Num::ratio(2, 3).unwrap().shown(), "0.66667");
    assert_eq!(n("0.125").with_places(2), "0.13");
    assert_eq!(n("-0.125").with_places(2), "-0.13");
    assert_eq!(n("2.5").with_places(3), "2.500");
    assert_eq!(n("2.45").rounded(1), n("2.5"));
    assert_eq!(n("-0.04").with_places(1), "0.0");
}

#[test]
fn rounding_goes_where_it_says() {
    for (number, floor, ceiling, nearest) in
        [("2.5", 2, 3, 3), ("-2.5", -3, -2, -3), ("7", 7, 7, 7), ("-0.2", -1, 0, 0)]
    {
        let [floor, ceiling, nearest] = [floor, ceiling, nearest].map(Num::from);
        for number in [n(number), Num::approx(n(number).to_f64())] {
            assert_eq!((number.floor(), number.ceil(), number.rounded(0)), (floor, ceiling, nearest));
        }
    }
    assert_eq!(Num::approx(2.346).rounded(2), Num::approx(2.35));
}
