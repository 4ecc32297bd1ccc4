//! No more findings of one text than a person reads.

use std::borrow::Cow;

use super::{Code, Diagnostic, Severity};

/// The most findings of one text that are shown.
const MOST: usize = 100;

/// All codes of this area.
pub static CODES: &[&Code] = &[&MORE_FINDINGS];

/// More was found than is shown.
pub static MORE_FINDINGS: Code = Code {
    name: "more-findings",
    summary: "more was found in a file than is shown",
    teaching: "\
Of one file the first hundred findings are shown, errors before warnings, and the others are counted. A file with
so many has mostly one mistake that many others follow from.

Wrong: to scroll through thousands of findings

Right: mend the first ones, then `bayhand check` again
",
};

/// The diagnostics that are shown: all of a few, of many the first, errors before warnings, and how many more there are.
pub(super) fn few(diagnostics: &[Diagnostic]) -> Cow<'_, [Diagnostic]> {
    if diagnostics.len() <= MOST {
        return Cow::Borrowed(diagnostics);
    }
    let is_error = |diagnostic: &&Diagnostic| diagnostic.severity == Severity::Error;
    let errors = diagnostics.iter().filter(is_error).count();
    let mut left = [errors.min(MOST), MOST.saturating_sub(errors)];
    let shown = diagnostics.iter().filter(|diagnostic| {
        let left = &mut left[usize::from(!is_error(diagnostic))];
        let is_shown = *left > 0;
        *left = left.saturating_sub(1);
        is_shown
    });
    let more = more(diagnostics.len() - MOST, errors.saturating_sub(MOST));
    Cow::Owned(shown.cloned().chain([more]).collect())
}

fn more(count: usize, errors: usize) -> Diagnostic {
    let headline = format!("and {} more", grouped(count));
    let diagnostic = match errors {
        0 => Diagnostic::warning(&MORE_FINDINGS, headline),
        _ => Diagnostic::error(&MORE_FINDINGS, headline),
    };
    diagnostic.help("mend those that are shown, then check again")
}

/// A count with a comma between thousands.
fn grouped(count: usize) -> String {
    let digits = count.to_string();
    let mut grouped = String::new();
    for (place, digit) in digits.chars().enumerate() {
        if place > 0 && (digits.len() - place).is_multiple_of(3) {
            grouped.push(',');
        }
        grouped.push(digit);
    }
    grouped
}
