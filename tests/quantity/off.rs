//! An instrument that was off: what was there when it read what it did. Values are fractions by hand.

use bayhand::quantity::{Off, Quantity, parse_literal};

fn quantity(text: &str) -> Quantity {
    parse_literal(text).unwrap()
}

/// 50/1.08 = 1250/27; 50/0.92 = 1250/23; 2.2 - 0.5 and 2.2 + 0.5; 1 psi = 0.45359237·9.80665/0.0254² Pa exactly.
#[test]
fn what_was_there_comes_out_exactly() {
    for (error, read, was, words) in [
        ("+8 %", "50 N·m", "1250/27 N·m", "read 8 % high"),
        ("-8%", "50 N·m", "1250/23 N·m", "read 8 % low"),
        ("\u{2212}8 %", "0 N·m", "0 N·m", "read 8 % low"),
        ("+0.5 bar", "2.2 bar", "1.7 bar", "read 0.5 bar high"),
        ("-0.5 bar", "2.2 bar", "2.7 bar", "read 0.5 bar low"),
        ("+50 kPa", "2.2 bar", "1.7 bar", "read 50 kPa high"),
        ("+2 °C", "39 °C", "37 °C", "read 2 °C high"),
        ("-9 °F", "39 °C", "44 °C", "read 9 °F low"),
        ("+0,5 mm", "3 mm", "2.5 mm", "read 0.5 mm high"),
    ] {
        let off = Off::parse(error).unwrap();
        assert_eq!(off.to_string(), words);
        let corrected = off.corrected(&quantity(read)).unwrap();
        assert_eq!(corrected, Quantity::from_exact_text(was).unwrap(), "{error} of {read}");
        assert!(corrected.number.is_exact());
    }
}

#[test]
fn what_does_not_fit_is_refused_with_why() {
    let off = Off::parse("+0.5 bar").unwrap();
    let why = off.corrected(&quantity("50 N·m")).unwrap_err();
    assert!(why.contains("pressure") && why.contains("torque"), "{why}");
    let why = Off::parse("+2 %").unwrap().corrected(&quantity("39 °C")).unwrap_err();
    assert!(why.contains("give the error in degrees"), "{why}");
    for text in ["", "8 %", "+", "+8", "+0 %", "+-8 %", "-100 %", "-250 %", "+8 nothings", "± 8 %"] {
        assert!(Off::parse(text).is_err(), "{text}");
    }
    assert_eq!(Off::parse("+8 %").unwrap().way(), "what was there is what was read, divided by 1.08");
    assert_eq!(Off::parse("-0.5 bar").unwrap().way(), "what was there is what was read, plus 0.5 bar");
}
