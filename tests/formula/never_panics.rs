//! Any text is read, any formula is worked out: with a result or a reason, never a panic.

use bayhand::formula::{Formula, MAX_DEPTH, MAX_LENGTH};
use bayhand::source::{Look, SourceText, render};
use proptest::prelude::*;

use super::world::{Names, check};

const NAMES: &str =
    "flow = 2.5 L/min\ntemp = 70.1 °C | 72.8 °C\nlook = \"clear\" of clear, milky\ndone = true\nnone = 0\n";

/// Goes the whole way with a text; whether it had a result.
fn goes_the_whole_way(text: &str) -> bool {
    let names = Names::read(NAMES, 0);
    let problems = match Formula::parse(text, 0).and_then(|formula| formula.check(&names)) {
        Err(mistakes) => mistakes,
        Ok(typed) => match typed.explained(&names) {
            Ok(outcome) => return !outcome.trace.show().is_empty(),
            Err(problem) => vec![typed.explain(&problem)],
        },
    };
    assert!(!render(&problems, &SourceText::new("any", text), Look::PLAIN).is_empty());
    for label in problems.iter().flat_map(|problem| &problem.labels) {
        assert!(
            label.span.start <= label.span.end && label.span.end <= text.len().max(NAMES.len()),
            "{text:?}"
        );
    }
    false
}

fn grammatical() -> impl Strategy<Value = String> {
    let leaf = prop_oneof![
        Just("flow".to_owned()),
        Just("temp".to_owned()),
        Just("look".to_owned()),
        Just("done".to_owned()),
        Just("none".to_owned()),
        Just("'clear'".to_owned()),
        Just("5 1/2 qt".to_owned()),
        Just("3/16 in".to_owned()),
        Just("-40 °C".to_owned()),
        Just("9 Δ°F".to_owned()),
        Just("25 %".to_owned()),
        Just("true".to_owned()),
        "[0-9]{1,40}",
        "[0-9]{1,3}\\.[0-9]{1,30}(e-?[0-9]{1,3})?( (L/min|N·m|m|psi|s))?",
    ];
    leaf.prop_recursive(6, 60, 4, |inner| {
        let operator = "( (\\+|-|\\*|/|\\^|<|<=|==|!=|and|or|·) )";
        prop_oneof![
            4 => (inner.clone(), operator, inner.clone()).prop_map(|(left, operator, right)| left + &operator + &right),
            1 => inner.clone().prop_map(|inner| format!("({inner})")),
            1 => inner.clone().prop_map(|inner| format!("-{inner}")),
            1 => inner.clone().prop_map(|inner| format!("not {inner}")),
            1 => (inner.clone(), inner.clone(), inner.clone())
                .prop_map(|(a, b, c)| format!("if {a} then {b} else {c}")),
            2 => ("(min|mean|spread|before|count|last|abs|sqrt|round|old_fluid_left|nothing)", prop::collection::vec(inner.clone(), 0..4))
                .prop_map(|(name, arguments)| format!("{name}({})", arguments.join(", "))),
            1 => ("(sum|mean|spread|first|count)", "(flow|temp|look|done|none|nobody)", inner)
                .prop_map(|(name, of, newest)| format!("{name}({of}, last = {newest})")),
        ]
    })
}

proptest! {
    #![proptest_config(crate::campaign::cases(300))]

    #[test]
    fn any_text(text in any::<String>()) {
        goes_the_whole_way(&text);
    }

    #[test]
    fn any_text_out_of_pieces_of_formulas(
        pieces in prop::collection::vec("[0-9]{1,2}|[a-z]{1,3}|[-+*/^()<>=!,.'\"% ]|in |if|then|else|°C|½|L/|·|and|e[+-]?9", 0..40),
    ) {
        goes_the_whole_way(&pieces.concat());
    }

    #[test]
    fn any_grammatical_formula(text in grammatical()) {
        goes_the_whole_way(&text);
    }

    /// What evaluates to plain numbers is what the same arithmetic gives in whole numbers.
    #[test]
    fn plain_arithmetic_is_right(a in -999i64..999, b in -999i64..999, c in 1i64..99) {
        let formula = format!("({a} + {b}) * {c} - {a} * ({b} - {c}) == {}", (a + b) * c - a * (b - c));
        prop_assert!(super::world::is_true(&formula), "{}", formula);
        let quotient = format!("{a} / {c} * {c} == {a}");
        prop_assert!(super::world::is_true(&quotient), "{}", quotient);
    }
}

#[test]
fn a_formula_that_is_too_deep_is_refused_however_it_is_deep() {
    let deep = [
        "(".repeat(2000) + "1" + &")".repeat(2000),
        "-".repeat(4000) + "1",
        "- - ".repeat(1000) + "1",
        "+".repeat(4000) + "1",
        "not ".repeat(1000) + "true",
        "abs(".repeat(900) + "1" + &")".repeat(900),
        "1+".repeat(2000) + "1",
        "2^".repeat(2000) + "1",
        "if true then 1 else ".repeat(200) + "2",
    ];
    for text in deep {
        let mistakes = check(&text, "").expect_err("deeper than allowed");
        assert_eq!(mistakes[0].code.name, "formula-too-large", "{}", &text[..40]);
    }
}

#[test]
fn the_deepest_formula_that_is_allowed_has_a_result() {
    let sum = "1+".repeat(MAX_DEPTH - 1) + "1";
    assert!(super::world::is_true(&format!("{} == {}", sum.replacen("1+", "", 1), MAX_DEPTH - 1)));
    let brackets = "(".repeat(MAX_DEPTH - 1) + "true" + &")".repeat(MAX_DEPTH - 1);
    assert!(super::world::is_true(&brackets));
}

#[test]
fn a_formula_that_is_too_long_is_refused() {
    let text = " ".repeat(MAX_LENGTH) + "1";
    assert_eq!(check(&text, "").expect_err("longer than allowed")[0].code.name, "formula-too-large");
}

#[test]
fn numbers_beyond_every_bound_are_refused_or_worked_out() {
    for text in [
        "99999999999999999999999999999999999999999 * 2",
        "2^1000",
        "1000^1000",
        "0^0",
        "0^(-1)",
        "1e-300",
        "10^(-400)",
    ] {
        goes_the_whole_way(text);
    }
    assert!(!goes_the_whole_way("1000^1000"), "this number has no place");
    assert!(!goes_the_whole_way("0^(-1)"), "this divides by zero");
}
