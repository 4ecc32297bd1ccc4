//! Golden cases: each file in `tests/cases/formula/` holds a formula, optionally the names it may use, and what is
//! shown of it.
//!
//! ```text
//! caught / took in L/min          the formula
//! ---
//! caught = 1.00 qt                names, one a line (see `world.rs`)
//! took = 22 s
//! ===
//! caught / took = ...             the trace, or the diagnostics as a person sees them
//! ```
//!
//! `BAYHAND_UPDATE=1 cargo test` writes what is shown into the files: read the difference before you commit it.

use std::path::{Path, PathBuf};

use bayhand::formula::Formula;
use bayhand::source::{Diagnostic, Look, SourceText, render};

use super::world::Names;

const SHOWN: &str = "===\n";
const NAMES: &str = "\n---\n";

#[test]
#[allow(clippy::disallowed_methods, reason = "the cases are files")]
fn every_case_is_shown_as_its_file_says() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases/formula");
    let mut files: Vec<PathBuf> =
        std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    files.sort();
    assert!(files.len() > 30, "the cases are found");
    let update = std::env::var_os("BAYHAND_UPDATE").is_some();
    let mut wrong = Vec::new();
    for file in files {
        let text = std::fs::read_to_string(&file).unwrap();
        let (given, expected) = text.split_once(SHOWN).unwrap_or((&text, ""));
        let shown = shown(given);
        if update {
            std::fs::write(&file, format!("{given}{SHOWN}{shown}")).unwrap();
        } else if shown != expected {
            wrong.push(format!("{}\nexpected:\n{expected}\nshown:\n{shown}\n", file.display()));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// What is shown of the text above `===`: the whole of it is the source, so that spans reach the names.
fn shown(given: &str) -> String {
    let text = SourceText::new("case", given);
    let (formula, names) = given.split_once(NAMES).unwrap_or((given.trim_end_matches('\n'), ""));
    let names = Names::read(names, formula.len() + NAMES.len());
    let look = |mistakes: Vec<Diagnostic>| render(&mistakes, &text, Look::PLAIN);
    let typed = match Formula::parse(formula, 0).and_then(|formula| formula.check(&names)) {
        Ok(typed) => typed,
        Err(mistakes) => return look(mistakes),
    };
    match typed.explained(&names) {
        Err(problem) => look(vec![typed.explain(&problem)]),
        Ok(outcome) => {
            let assumptions = outcome.trace.assumptions().iter().map(|line| format!("assumed: {line}\n"));
            format!("{}\n{}", outcome.trace.show(), assumptions.collect::<String>())
        }
    }
}
