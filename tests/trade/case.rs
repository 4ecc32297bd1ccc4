//! Outside checks as data: `tests/cases/trade/SUBJECT.txt`, one line a case.
//!
//! ```text
//! formula | expected | tolerance | mark | source
//! slip(2200 rpm, 2000 rpm) | 9.09091 % | 1e-5 | calc | 1 - 2000/2200
//! slip(0 rpm, 0 rpm) | refused: must be more than 0 rpm | - | calc | a division by zero has no result
//! ```
//!
//! The formula is what `bayhand calc` takes. `expected` is a quantity with its unit, a text in quotes, `true`,
//! `false`, or `refused:` and words of the message. `tolerance` is a number in the unit of `expected`, a number with
//! `rel` for a share of it, `exact`, or `-` where there is nothing to be off by. A line that begins with `#` or is
//! empty is for the reader.

use std::path::{Path, PathBuf};

use bayhand::formula::{Formula, NoNames, Value};
use bayhand::quantity::{Quantity, parse_literal};

/// How sure a check is, and whence; the best first.
pub const MARKS: [&str; 5] = ["seen", "seen / calc", "calc", "common practice", "memory"];

#[derive(Clone, Debug)]
pub struct Case {
    /// The file and line, for whoever looks for it.
    pub place: String,
    pub formula: String,
    pub expected: String,
    pub tolerance: String,
    pub mark: String,
    pub source: String,
}

pub fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases/trade")
}

/// Every case of every file, in the order of the files' names.
#[allow(clippy::disallowed_methods, reason = "the cases are files")]
pub fn all() -> Vec<Case> {
    let entries = std::fs::read_dir(folder()).unwrap();
    let mut files: Vec<PathBuf> = entries.map(|entry| entry.unwrap().path()).collect();
    files.retain(|file| file.extension().is_some_and(|extension| extension == "txt"));
    files.sort();
    files
        .iter()
        .flat_map(|file| {
            let name = file.file_name().unwrap().to_string_lossy().into_owned();
            read(&name, &std::fs::read_to_string(file).unwrap())
        })
        .collect()
}

fn read(file: &str, text: &str) -> Vec<Case> {
    let numbered = text.lines().enumerate();
    numbered
        .filter(|(_, line)| !line.trim().is_empty() && !line.starts_with('#'))
        .map(|(number, line)| case(format!("{file}:{}", number + 1), line))
        .collect()
}

fn case(place: String, line: &str) -> Case {
    let cells: Vec<String> = line.split(" | ").map(|cell| cell.trim().to_owned()).collect();
    let Ok([formula, expected, tolerance, mark, source]) = <[String; 5]>::try_from(cells) else {
        panic!("{place}: five cells, parted by ` | `: {line}");
    };
    assert!(MARKS.contains(&mark.as_str()), "{place}: the mark is one of {MARKS:?}, not {mark}");
    assert!(!source.is_empty(), "{place}: a check names its source");
    assert_eq!(
        mark == "memory",
        source.contains("from memory"),
        "{place}: what is from memory says so, mark and source"
    );
    Case { place, formula, expected, tolerance, mark, source }
}

impl Case {
    /// What is wrong with the case, if it does not hold.
    pub fn failure(&self) -> Option<String> {
        let wrong = match (self.expected.strip_prefix("refused:"), value(&self.formula)) {
            (Some(words), Err(message)) => refusal(words.trim(), &message),
            (Some(_), Ok(value)) => Some(format!("gives {value:?}")),
            (None, Err(message)) => Some(format!("is refused: {message}")),
            (None, Ok(Value::Quantity(given))) => self.too_far(&given),
            (None, Ok(Value::Truth(given))) => differs(&self.expected, &given.to_string()),
            (None, Ok(Value::Text(given) | Value::Instead(given))) => {
                differs(&self.expected, &format!("\"{given}\""))
            }
        };
        wrong.map(|wrong| {
            let Self { place, formula, expected, .. } = self;
            format!("{place}: {formula}\n    {wrong}\n    expected {expected}")
        })
    }

    fn too_far(&self, given: &Quantity) -> Option<String> {
        let place = &self.place;
        let expected = parse_literal(&self.expected)
            .unwrap_or_else(|problem| panic!("{place}: {}: {problem}", self.expected));
        let Ok(given) = given.in_unit(&expected.unit) else {
            return Some(format!("gives {given}, which is of another sort"));
        };
        if self.tolerance == "exact" {
            return (given.number != expected.number)
                .then(|| format!("gives {}", given.number.to_exact_text()));
        }
        let (number, expected) = (given.number.to_f64(), expected.number.to_f64());
        let allowed = match self.tolerance.strip_suffix(" rel") {
            Some(share) => parsed(place, share) * expected.abs(),
            None => parsed(place, &self.tolerance),
        };
        // Written so that what is no number at all does not pass.
        let near = (number - expected).abs() <= allowed;
        (!near).then(|| format!("gives {number}, more than {allowed} off"))
    }
}

fn parsed(place: &str, number: &str) -> f64 {
    number.parse().unwrap_or_else(|_| panic!("{place}: the tolerance is a number, not {number}"))
}

fn refusal(words: &str, message: &str) -> Option<String> {
    (words.is_empty() || !message.contains(words)).then(|| format!("says: {message}"))
}

fn differs(expected: &str, given: &str) -> Option<String> {
    (expected != given).then(|| format!("gives {given}"))
}

/// The value of a formula without names, or what the person is told instead.
pub fn value(formula: &str) -> Result<Value, String> {
    let typed = Formula::parse(formula, 0).and_then(|formula| formula.check(&NoNames));
    let typed = typed.map_err(|mistakes| {
        let messages = mistakes.iter().map(|mistake| mistake.message.as_str());
        messages.collect::<Vec<_>>().join("; ")
    })?;
    match typed.explained(&NoNames) {
        Ok(outcome) => Ok(outcome.value),
        Err(problem) => Err(typed.explain(&problem).message),
    }
}
