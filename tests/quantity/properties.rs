//! What must hold for every number, unit and text.

use std::cmp::Ordering;

use bayhand::quantity::{Limits, Num, Outcome, Quantity, Unit, judge, parse_entry, parse_literal, units};
use num_rational::Ratio;
use num_traits::{CheckedAdd, CheckedDiv, CheckedMul, CheckedSub};
use proptest::prelude::*;

/// A whole number of any size, those about the ends of machine words among them.
fn whole() -> impl Strategy<Value = i128> {
    let ends = [1_i128 << 31, 1 << 32, 1 << 62, i128::from(i64::MAX), i128::from(i64::MIN), 1 << 64, 1 << 96];
    let near = (prop::sample::select(ends.to_vec()), -2_i128..=2).prop_map(|(end, off)| end + off);
    prop_oneof![-20_i128..=20, any::<i32>().prop_map(i128::from), any::<i64>().prop_map(i128::from), near]
}

fn fraction() -> impl Strategy<Value = Ratio<i128>> {
    (whole(), whole())
        .prop_filter_map("a fraction", |(above, below)| (below != 0).then(|| Ratio::new(above, below)))
}

fn number() -> impl Strategy<Value = Num> {
    (-1_000_000_000_i128..=1_000_000_000, 0_u32..=6)
        .prop_map(|(digits, places)| Num::ratio(digits, 10_i128.pow(places)).unwrap())
}

fn any_number() -> impl Strategy<Value = Num> {
    prop_oneof![
        (any::<i128>(), any::<i128>())
            .prop_filter_map("a fraction", |(above, below)| Num::ratio(above, below)),
        any::<f64>().prop_map(Num::approx),
        number(),
    ]
}

fn table_unit() -> impl Strategy<Value = Unit> {
    (0..units().len()).prop_map(|place| units()[place].1.clone())
}

/// Two units of one thing with exact factors.
fn pair_of_units() -> impl Strategy<Value = (Unit, Unit)> {
    (table_unit(), any::<prop::sample::Index>()).prop_map(|(unit, index)| {
        let same = |other: &&(_, Unit)| other.1.fits(&unit) && other.1.factor().is_exact();
        let fitting: Vec<_> = units().iter().filter(same).collect();
        if fitting.is_empty() { (unit.clone(), unit) } else { (unit.clone(), index.get(&fitting).1.clone()) }
    })
}

/// Texts that look like entries, so that the search does not stop at the first character.
fn entry_like() -> impl Strategy<Value = String> {
    let pieces = prop::sample::select(vec![
        "1",
        "5",
        "12",
        "234",
        "000",
        ".",
        ",",
        " ",
        "/",
        "-",
        "−",
        "+",
        ":",
        "e",
        "E",
        "½",
        "'",
        "\"",
        "ft",
        "in",
        "min",
        "h",
        "°C",
        "mm",
        "·",
        "^",
        "2",
        "²",
        "⁻",
        "(",
        ")",
        "1/",
        "N·m",
        "lb",
        "\u{a0}",
        "\u{202e}",
        "\u{1b}",
        "99999999999",
        "Δ",
    ]);
    prop::collection::vec(pieces, 0..12).prop_map(|pieces| pieces.concat())
}

proptest! {
    #[test]
    fn exact_text_reads_back(number in any_number()) {
        let back = Num::from_exact_text(&number.to_exact_text()).unwrap();
        prop_assert_eq!(back, number);
        prop_assert_eq!(back.is_exact(), number.is_exact());
    }

    #[test]
    fn arithmetic_never_panics_and_stays_finite(left in any_number(), right in any_number(), power in -40..40_i32) {
        let results = [left + right, left - right, left * right, -left, left.abs(), left.floor(), left.ceil(), left.rounded(3)];
        let optional = [left.checked_div(right), left.powi(power), left.sqrt()];
        for result in results.into_iter().chain(optional.into_iter().flatten()) {
            prop_assert!(result.to_f64().is_finite());
            prop_assert!(!result.shown().is_empty());
        }
    }

    /// The shorter way that is taken for small fractions gives what the general arithmetic of fractions gives.
    #[test]
    fn exact_arithmetic_is_that_of_fractions(left in fraction(), right in fraction()) {
        let (a, b) = (Num::Exact(left), Num::Exact(right));
        let pairs = [
            (a + b, left.checked_add(&right)),
            (a - b, left.checked_sub(&right)),
            (a * b, left.checked_mul(&right)),
        ];
        let quotient = a.checked_div(b).map(|quotient| (quotient, left.checked_div(&right)));
        for (number, fraction) in pairs.into_iter().chain(quotient) {
            // Raw parts: in lowest terms, with the sign above.
            if let Some(fraction) = fraction {
                let exact = number.exact().map(|exact| (*exact.numer(), *exact.denom()));
                prop_assert_eq!(exact, Some((*fraction.numer(), *fraction.denom())));
            }
        }
        prop_assert_eq!(b.is_zero(), a.checked_div(b).is_none());
        prop_assert_eq!(a.cmp(&b), left.cmp(&right));
        prop_assert_eq!(a.is_negative(), left < Ratio::from_integer(0));
    }

    #[test]
    fn exact_arithmetic_undoes_itself(left in number(), right in number()) {
        prop_assert_eq!(left + right - right, left);
        prop_assume!(!right.is_zero());
        prop_assert_eq!((left * right).checked_div(right), Some(left));
    }

    #[test]
    fn the_order_of_numbers_is_one_order(mut three in prop::array::uniform3(any_number())) {
        three.sort();
        prop_assert!(three[0] <= three[1] && three[1] <= three[2] && three[0] <= three[2]);
        prop_assert_eq!(three[0].cmp(&three[1]), three[1].cmp(&three[0]).reverse());
    }

    #[test]
    fn what_is_shown_is_near(number in number()) {
        let shown = Num::parse_decimal(&number.shown()).unwrap();
        prop_assert!((shown - number).abs().to_f64() <= number.abs().to_f64() * 5e-5);
    }

    #[test]
    fn there_and_back_is_exact(number in number(), (one, other) in pair_of_units()) {
        let value = Quantity::new(number, one.clone());
        let back = value.in_unit(&other).unwrap().in_unit(&one).unwrap();
        if one.factor().is_exact() {
            prop_assert_eq!(&back, &value);
        }
        prop_assert!((back.number.to_f64() - number.to_f64()).abs() <= 1e-9 * number.to_f64().abs());
    }

    #[test]
    fn order_does_not_depend_on_units(left in number(), right in number(), (one, other) in pair_of_units()) {
        prop_assume!(one.factor().is_exact());
        let (left, right) = (Quantity::new(left, one.clone()), Quantity::new(right, one));
        let order = left.number.cmp(&right.number);
        prop_assert_eq!(left.in_unit(&other).unwrap().compare(&right), Ok(order));
        prop_assert_eq!(left.compare(&right.in_unit(&other).unwrap()), Ok(order));
        prop_assert_eq!(right.compare(&left), Ok(order.reverse()));
    }

    #[test]
    fn what_is_shown_alone_reads_back_near(number in number(), unit in table_unit()) {
        let value = Quantity::new(number, unit.as_difference());
        let read = parse_entry(&value.to_string(), &value.unit).unwrap();
        prop_assert!((read.asked.number - number).abs().to_f64() <= number.abs().to_f64() * 5e-5);
    }

    #[test]
    fn exact_text_and_symbol_read_back(number in number(), unit in table_unit()) {
        let value = Quantity::new(number, unit);
        let text = value.to_exact_text();
        prop_assert_eq!(parse_literal(&text), Ok(value.clone()));
        prop_assert_eq!(Quantity::from_exact_text(&text), Some(value));
    }

    #[test]
    fn products_read_back(units in prop::collection::vec((table_unit(), -2..=2_i32), 1..4)) {
        let product = units.iter().fold(Unit::one(), |product, (unit, power)| product.times(&unit.powi(*power)));
        prop_assume!(product.symbol().len() <= 64);
        let read = Unit::parse(product.symbol()).unwrap();
        prop_assert_eq!(read.dimension(), product.dimension());
        prop_assert_eq!(read.kind(), product.kind());
        let ratio = read.factor().to_f64() / product.factor().to_f64();
        prop_assert!((ratio - 1.0).abs() < 1e-12, "{}", product.symbol());
    }

    #[test]
    fn a_value_is_judged_on_its_side(digits in 1..10_000_i128, step in -5..=5_i128, fine in 1..12_u32, (one, other) in pair_of_units()) {
        let scale = 10_i128.pow(fine);
        let limit = Quantity::new(Num::ratio(digits, 1).unwrap(), one.clone());
        let value = Quantity::new(Num::ratio(digits * scale + step, scale).unwrap(), one).in_unit(&other).unwrap();
        prop_assume!(value.number.is_exact());
        let order = value.compare(&limit).unwrap();
        let verdict = judge(&value, &Limits::max(limit)).unwrap();
        prop_assert_eq!(verdict.outcome == Outcome::Pass, order != Ordering::Greater);
    }

    #[test]
    fn temperatures_keep_their_rules(one in number(), other in number()) {
        let celsius = Unit::parse("°C").unwrap();
        let fahrenheit = Unit::parse("°F").unwrap();
        let (warm, cold) = (Quantity::new(one, celsius), Quantity::new(other, fahrenheit));
        let rise = warm.minus(&cold).unwrap();
        prop_assert!(warm.plus(&cold).is_err());
        prop_assert_eq!(cold.plus(&rise).unwrap().compare(&warm), Ok(Ordering::Equal));
        prop_assert_eq!(warm.minus(&rise).unwrap().compare(&cold), Ok(Ordering::Equal));
    }

    #[test]
    fn no_text_is_too_strange(text in any::<String>(), like in entry_like(), unit in table_unit()) {
        for text in [text, like] {
            let _ = Num::parse_decimal(&text);
            let _ = Num::from_exact_text(&text);
            let _ = Quantity::from_exact_text(&text);
            let _ = Unit::parse(&text).map_err(|problem| problem.to_string());
            let _ = parse_literal(&text).map_err(|problem| problem.to_string());
            if let Ok(entry) = parse_entry(&text, &unit) {
                prop_assert_eq!(entry.text, text);
                prop_assert!(entry.asked.unit.fits(&entry.typed.unit));
            }
        }
    }
}
