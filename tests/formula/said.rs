//! A formula as a person hears it: the words for its names, each with its value. Worked by hand.

use bayhand::formula::Formula;
use bayhand::quantity::{Limits, judge, parse_literal};

use super::world::{Names, evaluate};

/// What a name stands for; one that is not here is said by its own letters.
fn words(name: &str) -> String {
    let known = [
        ("reverse", "reverse rounds"),
        ("normal", "normal rounds"),
        ("rinse", "rinse"),
        ("room", "room in the can"),
        ("look", "look of the oil"),
        ("gap", "gap"),
        ("limit", "largest gap"),
        ("temp", "oil temperature"),
        ("worth_it", "worth flushing"),
    ];
    known
        .iter()
        .find(|(known, _)| *known == name)
        .map_or_else(|| name.to_owned(), |(_, words)| (*words).to_owned())
}

fn said(formula: &str, names: &str) -> String {
    evaluate(formula, names)
        .unwrap_or_else(|problem| panic!("{formula}: {problem:?}"))
        .trace
        .said(&words)
        .to_string()
}

const FLUSH: &str =
    "reverse = 4.9 L\nnormal = 2.4 L\nrinse = 1.3 L\nworth_it = true\nbad = false\nroom = 10 L\n";

#[test]
fn a_sum_is_said_with_its_names_and_numbers() {
    assert_eq!(
        said("reverse + normal + rinse", FLUSH),
        "reverse rounds 4.9 L + normal rounds 2.4 L + rinse 1.3 L = 8.6 L"
    );
    assert_eq!(
        said("4 * (rinse + normal) - rinse / 2", FLUSH),
        "4 × (rinse 1.3 L + normal rounds 2.4 L) - rinse 1.3 L / 2 = 14.15 L"
    );
    assert_eq!(
        said("reverse - (normal - rinse)", FLUSH),
        "reverse rounds 4.9 L - (normal rounds 2.4 L - rinse 1.3 L) = 3.8 L"
    );
    assert_eq!(
        said("reverse / (normal * 2)", FLUSH),
        "reverse rounds 4.9 L / (normal rounds 2.4 L × 2) = 1.02"
    );
}

/// Of an `if` what was chosen; a zero that was chosen adds nothing and is not said.
#[test]
fn of_an_if_what_was_chosen_is_said() {
    let formula = "(if worth_it then reverse else 0 L) + (if bad then normal else 0 L) + rinse";
    assert_eq!(said(formula, FLUSH), "reverse rounds 4.9 L + rinse 1.3 L = 6.2 L");
    assert_eq!(said("if bad then reverse else 2 L", FLUSH), "2 L");
    assert_eq!(said("if worth_it then reverse else 2 L", FLUSH), "reverse rounds 4.9 L");
    assert_eq!(said("2 * (if bad then normal else rinse + 1 L)", FLUSH), "2 × (rinse 1.3 L + 1 L) = 4.6 L");
}

#[test]
fn what_is_made_of_several_passes_is_said_as_what_it_is() {
    let names = "temp = 20 °C | 20.4 °C | 21 °C\ngap = 1 mm | 3 mm\nreverse = 2.4 L | 2.5 L\n";
    assert_eq!(said("sum(reverse)", names), "the sum of reverse rounds 4.9 L");
    assert_eq!(
        said("spread(temp, last = 2) <= 0.5 K", names),
        "the spread of the newest 2 of oil temperature is at most 0.5 K (it is 0.6 K)"
    );
    assert_eq!(said("before(gap) + 1 mm", names), "in the pass before: gap 1 mm + 1 mm = 2 mm");
    assert_eq!(said("count(gap) >= 2", names), "the number of passes of gap is at least 2 (it is 2)");
}

#[test]
fn functions_have_words() {
    assert_eq!(
        said("min(30 psi, gauge)", "gauge = 25 psi\n"),
        "the least of 30 psi and gauge 25 psi = 25 psi"
    );
    assert_eq!(
        said("2 * max(gap, limit)", "gap = 2 mm\nlimit = 3 mm\n"),
        "2 × (the greatest of gap 2 mm and largest gap 3 mm) = 6 mm"
    );
    assert_eq!(
        said("abs(gap - limit)", "gap = 2 mm\nlimit = 3 mm\n"),
        "the size of (gap 2 mm - largest gap 3 mm) = 1 mm"
    );
}

#[test]
fn a_condition_says_what_is_asked_and_what_it_is() {
    let names = "look = \"clear\" of clear, milky, burnt\ngap = 2 mm\nlimit = 3 mm\n";
    for (formula, expected) in [
        ("look == \"milky\"", "look of the oil is \"milky\" (it is \"clear\")"),
        ("look == \"clear\"", "look of the oil is \"clear\""),
        ("look != \"clear\"", "look of the oil is not \"clear\" (it is)"),
        ("look != \"milky\"", "look of the oil is not \"milky\" (it is \"clear\")"),
        ("gap > limit", "gap is above largest gap 3 mm (it is 2 mm)"),
        ("3 mm < gap", "gap is above 3 mm (it is 2 mm)"),
        ("gap >= 0.5 * limit", "gap is at least 0.5 × largest gap 3 mm = 1.5 mm (it is 2 mm)"),
        ("limit - gap < 2 mm", "largest gap 3 mm - gap 2 mm is below 2 mm (it is 1 mm)"),
        ("not (gap > limit)", "gap is at most largest gap 3 mm (it is 2 mm)"),
    ] {
        assert_eq!(said(formula, names), expected, "{formula}");
    }
}

/// Of what is joined by and, or by or, the part that decided it alone is enough.
#[test]
fn of_several_conditions_the_one_that_decided_is_said() {
    let names = "look = \"clear\" of clear, milky\ngap = 2 mm\nworth_it = true\nbad = false\n";
    for (formula, expected) in [
        ("look == \"milky\" and gap > 1 mm", "look of the oil is \"milky\" (it is \"clear\")"),
        ("gap > 1 mm and look == \"milky\"", "look of the oil is \"milky\" (it is \"clear\")"),
        ("gap > 1 mm or look == \"milky\"", "gap is above 1 mm (it is 2 mm)"),
        (
            "gap > 1 mm and look == \"clear\"",
            "gap is above 1 mm (it is 2 mm) and look of the oil is \"clear\"",
        ),
        ("worth_it and not bad", "worth flushing (it is so) and not bad (it is not so)"),
        ("bad or gap > 3 mm", "bad (it is not so) or gap is above 3 mm (it is 2 mm)"),
        (
            "worth_it and not (bad or gap > 3 mm)",
            "worth flushing (it is so) and not (bad (it is not so) or gap is above 3 mm (it is 2 mm))",
        ),
    ] {
        assert_eq!(said(formula, names), expected, "{formula}");
    }
}

#[test]
fn what_is_not_known_yet_is_said_without_values() {
    let names = Names::read("look = \"clear\" of clear, milky\ngap = 2 mm\nlimit = 3 mm\n", 0);
    let in_words = |formula: &str| {
        let typed = Formula::parse(formula, 0).and_then(|formula| formula.check(&names)).unwrap();
        typed.in_words(&words)
    };
    assert_eq!(
        in_words("look == \"milky\" or gap > limit"),
        "look of the oil is \"milky\" or gap is above largest gap"
    );
    assert_eq!(
        in_words("if look == \"milky\" then gap else 2 * limit"),
        "gap if look of the oil is \"milky\", else 2 × largest gap"
    );
}

/// A line that nobody could take in at a glance has the numbers, and below them what each is.
#[test]
fn with_long_names_the_numbers_stand_alone_and_the_names_below() {
    let long = |name: &str| {
        format!("{} in all rounds, caught in the clear can and measured in the jug", words(name))
    };
    let outcome = evaluate("reverse + normal + rinse + rinse", FLUSH).unwrap();
    let said = outcome.trace.said(&long);
    assert_eq!(said.line, "4.9 L + 2.4 L + 1.3 L + 1.3 L = 9.9 L");
    assert_eq!(said.names.len(), 3, "each once: {:?}", said.names);
    assert_eq!(
        said.names[0],
        "4.9 L: reverse rounds in all rounds, caught in the clear can and measured in the jug"
    );
}

/// 24 s of 23.935 s allowed come to 100.27 %: three digits would show the limit itself.
#[test]
fn a_value_is_never_shown_as_what_it_is_compared_with() {
    let names = "took = 24 s\nallowed = 23.935 s\n";
    assert_eq!(
        said("took / allowed <= 100 %", names),
        "took 24 s / allowed 23.935 s is at most 100 % (it is 100.3 %)"
    );
    let limits = Limits::max(parse_literal("30 psi").unwrap());
    let value = parse_literal("206.84280000001 kPa").unwrap();
    assert!(judge(&value, &limits).unwrap().to_string().starts_with("fail"));
}
