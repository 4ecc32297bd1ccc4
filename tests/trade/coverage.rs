//! Which function is held to what: `tests/cases/trade/COVERAGE.md`, written anew with `BAYHAND_UPDATE=1`.

use std::collections::BTreeSet;
use std::fmt::Write;

use bayhand::trade::{Function, SUBJECTS};

use super::case::{self, Case, MARKS};

/// A function and the cases whose formula calls it.
struct Covered<'a> {
    subject: &'static str,
    function: &'static Function,
    cases: Vec<&'a Case>,
}

fn covered(cases: &[Case]) -> Vec<Covered<'_>> {
    let functions = SUBJECTS.iter().flat_map(|subject| {
        let functions = subject.functions.iter();
        functions.map(|function| (subject.name, function))
    });
    functions
        .map(|(subject, function)| Covered {
            subject,
            function,
            cases: cases.iter().filter(|case| calls(&case.formula, function.name)).collect(),
        })
        .collect()
}

/// Whether the formula calls the function: its name, a bracket after it and no other letter before it.
fn calls(formula: &str, name: &str) -> bool {
    formula.match_indices(&format!("{name}(")).any(|(at, _)| {
        let before = formula[..at].chars().next_back();
        before.is_none_or(|char| !char.is_ascii_alphanumeric() && char != '_')
    })
}

impl Covered<'_> {
    fn marked(&self, mark: &str) -> usize {
        self.results().filter(|case| case.mark == mark).count()
    }

    /// A refusal shows where a function ends, not that it is right.
    fn results(&self) -> impl Iterator<Item = &Case> {
        let cases = self.cases.iter().copied();
        cases.filter(|case| !case.expected.starts_with("refused:"))
    }

    fn row(&self) -> String {
        let marks: Vec<String> = MARKS.iter().map(|mark| self.marked(mark).to_string()).collect();
        let refusals = self.cases.len() - self.results().count();
        let sources: BTreeSet<&str> = self.results().map(|case| case.source.as_str()).collect();
        let sources: Vec<&str> = sources.into_iter().collect();
        format!(
            "| {} | `{}` | {} | {} | {refusals} | {} |\n",
            self.subject,
            self.function.name,
            self.results().count(),
            marks.join(" | "),
            sources.join("; ")
        )
    }
}

fn table(covered: &[Covered<'_>], cases: &[Case]) -> String {
    let read_somewhere = covered.iter().filter(|covered| is_seen(covered)).count();
    let mut text = String::from("# What the trade computations are checked against\n\n");
    let _ = write!(
        text,
        "{} functions, {} checks from outside; {read_somewhere} functions have a check whose numbers were read in \
         the source (*seen*, or *seen / calc* where its inputs were read there). Written by the tests; do not edit.\n\n",
        covered.len(),
        cases.len()
    );
    let _ = writeln!(text, "| subject | function | results | {} | refusals | sources |", MARKS.join(" | "));
    let _ = writeln!(text, "|---|---|{}---|", "---|".repeat(MARKS.len() + 2));
    for covered in covered {
        text.push_str(&covered.row());
    }
    text
}

fn is_seen(covered: &Covered<'_>) -> bool {
    covered.marked("seen") + covered.marked("seen / calc") > 0
}

#[test]
#[allow(clippy::disallowed_methods, reason = "the table is a file")]
fn the_table_says_what_is_checked() {
    let cases = case::all();
    let table = table(&covered(&cases), &cases);
    let file = case::folder().join("COVERAGE.md");
    if std::env::var_os("BAYHAND_UPDATE").is_some() {
        std::fs::write(&file, table).unwrap();
        return;
    }
    let written = std::fs::read_to_string(&file).unwrap_or_default();
    assert_eq!(written, table, "write it anew with BAYHAND_UPDATE=1");
}

#[test]
fn no_function_goes_without_a_check() {
    let cases = case::all();
    let without: Vec<&str> = covered(&cases)
        .iter()
        .filter(|covered| covered.results().next().is_none())
        .map(|covered| covered.function.name)
        .collect();
    assert!(without.is_empty(), "no case calls {without:?}");
}

#[test]
fn two_thirds_are_checked_against_something_read() {
    let cases = case::all();
    let covered = covered(&cases);
    let not_seen: Vec<&str> =
        covered.iter().filter(|covered| !is_seen(covered)).map(|covered| covered.function.name).collect();
    assert!(
        not_seen.len() * 3 <= covered.len(),
        "{} of {} are checked against calculation or memory only: {not_seen:?}",
        not_seen.len(),
        covered.len()
    );
}

/// A case that calls nothing of the trade checks nothing of it.
#[test]
fn every_case_calls_a_function_of_the_trade() {
    let names: Vec<&str> =
        SUBJECTS.iter().flat_map(|subject| subject.functions).map(|function| function.name).collect();
    for case in case::all() {
        assert!(names.iter().any(|name| calls(&case.formula, name)), "{}: {}", case.place, case.formula);
    }
}
