//! Decision rules: what the accuracy of an instrument means for a verdict.

use bayhand::run::{Ask, Certainty};
use bayhand::trade::measurement::Rule;

use super::drive::{Drive, book, name, text};

/// Limits 9.0 to 11.0, expanded uncertainty 0.2 (k = 2, so an accuracy of 0.1 × √3 either way), reading 10.9:
/// after ILAC-G8:09/2019, 4.2 and JCGM 106:2012, 8.
fn gap(rule: &str) -> String {
    let rule = if rule.is_empty() { String::new() } else { format!("decision_rule = \"{rule}\"\n") };
    format!(
        "tools = {{ gauge = {{ what = \"gauge\", accuracy = \"0.173205 mm\" }} }}\n\
[readings.gap]\nwhat = \"gap\"\nunit = \"mm\"\nmin = \"9.0 mm\"\nmax = \"11.0 mm\"\ninstrument = \"gauge\"\n{rule}"
    )
}

fn verdict(rule: &str, typed: &str) -> (String, bool) {
    let source = text("", "1. Read [gap].\n").replace("tools = \"none\"\n", "");
    let (tools, reading) =
        gap(rule).split_once('\n').map(|(tools, rest)| (tools.to_owned(), rest.to_owned())).unwrap();
    let source = source
        .replace("materials = \"none\"", &format!("{tools}\nmaterials = \"none\""))
        .replace("[roles]", &format!("{reading}[roles]"));
    read_of(&source, typed)
}

/// What is said of the first reading of a job, and whether the job can be closed on it.
fn read_of(source: &str, typed: &str) -> (String, bool) {
    let mut drive = Drive::begin(book(source));
    drive.take(bayhand::run::Answer::Person("Robin Vale".to_owned()));
    drive.enter("1 km");
    drive.enter(typed);
    let judged = drive.view().judge(&name("gap")).unwrap();
    (judged.judgement.to_string(), drive.ask() == Ask::Close)
}

#[test]
fn one_reading_four_rules() {
    assert_eq!(verdict("", "10.9").0, "pass, 0.1 mm below the maximum");
    assert_eq!(verdict("simple acceptance", "10.9").0, "pass, 0.1 mm below the maximum");
    assert_eq!(verdict("guard band", "10.9"), ("fail, 0.1 mm below the maximum".to_owned(), false));
    assert_eq!(verdict("four-way", "10.9"), ("conditional pass, 0.1 mm below the maximum".to_owned(), true));
    assert_eq!(
        verdict("four-way", "11.1"),
        ("conditional fail, 0.1 mm above the maximum of 11 mm".to_owned(), false)
    );
    assert_eq!(verdict("four-way", "11.3").0, "fail, 0.3 mm above the maximum of 11 mm");
    assert_eq!(verdict("guard band", "10.7"), ("pass, 0.3 mm below the maximum".to_owned(), true));
}

#[test]
fn the_instrument_s_accuracy_is_told_with_the_verdict() {
    let quantity = |text: &str| bayhand::quantity::parse_literal(text).unwrap();
    let limits = bayhand::quantity::Limits::max(quantity("11.0 mm"));
    // Φ(0.1 / 0.1) = 0.841345: JCGM 106:2012, 7.3, one-sided; scipy 1.17.1 norm.cdf(1).
    let certainty = Certainty::of(&quantity("10.9 mm"), &quantity("0.1732050808 mm"), &limits).unwrap();
    assert!((certainty.conformity - 0.841_344_746).abs() < 1e-6, "{}", certainty.conformity);
    assert_eq!(certainty.to_string(), "±0.1732 mm makes it 84 % likely that the limits are kept");
    // A share of the reading: 4 % of 100 N·m is ±4 N·m, U = 4.6188022 N·m: GUM 4.3.7; from a general-purpose library.
    let limits = bayhand::quantity::Limits::max(quantity("110 N·m"));
    let certainty = Certainty::of(&quantity("100 N·m"), &quantity("4 %"), &limits).unwrap();
    assert!((certainty.expanded.number.to_f64() - 4.618_802_2).abs() < 1e-6);
}

/// A share of a reading of zero is zero: there is no spread to work with, and no number that is none.
#[test]
fn a_share_of_nothing_is_certain_of_the_reading_alone() {
    let quantity = |text: &str| bayhand::quantity::parse_literal(text).unwrap();
    let of = |limit: &str| {
        let limits = bayhand::quantity::Limits::max(quantity(limit));
        Certainty::of(&quantity("0 psi"), &quantity("4 %"), &limits).unwrap().conformity.to_bits()
    };
    assert_eq!((of("0 psi"), of("1 psi"), of("-1 psi")), (1f64.to_bits(), 1f64.to_bits(), 0f64.to_bits()));
}

/// ILAC-G8:09/2019, 4.2, from memory: with a guard band there are two outcomes only, on a bound that is no good any more as well.
#[test]
fn a_guard_band_knows_no_condition() {
    let (said, closes) = zero_by("guard band");
    assert!(said.starts_with("fail"), "{said}");
    assert!(!closes);
    assert!(zero_by("four-way").0.starts_with("fail"));
}

fn zero_by(rule: &str) -> (String, bool) {
    let source = text("", "1. Read [gap].\n").replace("tools = \"none\"\n", "");
    let source = source
        .replace(
            "materials = \"none\"",
            "tools = { gauge = { what = \"gauge\", accuracy = \"4 %\" } }\nmaterials = \"none\"",
        )
        .replace(
            "[roles]",
            &format!("[readings.gap]\nwhat = \"gap\"\nunit = \"mm\"\nabove = \"0 mm\"\ninstrument = \"gauge\"\ndecision_rule = \"{rule}\"\n[roles]"),
        );
    read_of(&source, "0")
}

#[test]
fn the_rule_has_its_name() {
    assert_eq!(Rule::Simple.words(), "simple acceptance");
}
