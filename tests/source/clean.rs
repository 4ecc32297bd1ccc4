use bayhand::source::clean;
use proptest::prelude::*;

/// Unicode 15, chapter 23 and UAX #9: the characters that control a terminal or reorder text.
#[test]
fn controls_and_bidirectional_marks_become_visible() {
    assert_eq!(clean("\u{1b}[31mred\u{7}"), "␛[31mred␇");
    assert_eq!(clean("a\u{7f}b\u{9b}31m"), "a␡b�31m");
    assert_eq!(clean("x\u{202e}y\u{2066}z\u{200b}\u{feff}"), "x�y�z��");
    assert_eq!(clean("\r\n"), "␍\n");
}

#[test]
fn ordinary_text_is_not_copied() {
    let text = "35 lbf·ft ≤ 5½ qt at −40 °C\n\tnext 👨‍🔧";
    assert!(matches!(clean(text), std::borrow::Cow::Borrowed(same) if same == text));
}

proptest! {
    #[test]
    fn nothing_that_controls_a_terminal_is_left(text in any::<String>()) {
        let cleaned = clean(&text);
        prop_assert!(!cleaned.chars().any(|c| c.is_control() && c != '\n' && c != '\t'));
        prop_assert_eq!(cleaned.chars().count(), text.chars().count());
        prop_assert_eq!(clean(&cleaned), cleaned.clone());
    }
}
