//! Golden cases: `tests/cases/job/NAME.md` is read and held against the procedures in `listed/`; what is said about it stands
//! in `NAME.txt`. `BAYHAND_UPDATE=1 cargo test` writes the expectations anew.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use bayhand::job::{CODES, check, check_handing, read};
use bayhand::procedure::CheckedProcedure;
use bayhand::source::{Look, SourceText, render};

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases/job")
}

fn text(path: &Path) -> SourceText {
    let name = path.file_name().expect("a name").to_string_lossy();
    SourceText::new(name, std::fs::read_to_string(path).expect("a text"))
}

fn listed() -> Vec<CheckedProcedure> {
    let one = |id: &str| {
        let found = bayhand::procedure::read(&text(&folder().join(format!("listed/{id}.md"))), id);
        found.value.unwrap_or_else(|| panic!("{id}: {:?}", found.diagnostics))
    };
    ["drain", "fill", "raise", "work"].map(one).into()
}

#[test]
fn every_case_says_what_is_written_beside_it() {
    let (procedures, mut seen) = (listed(), BTreeSet::new());
    let mut cases: Vec<PathBuf> =
        std::fs::read_dir(folder()).expect("a folder").map(|entry| entry.expect("an entry").path()).collect();
    cases.retain(|path| path.extension().is_some_and(|ending| ending == "md"));
    cases.sort();
    for path in cases {
        let (source, stem) = (text(&path), path.file_stem().expect("a name").to_string_lossy().into_owned());
        let found = read(&source, &stem);
        let mut diagnostics = found.diagnostics;
        diagnostics.extend(found.value.iter().flat_map(|job| check(job, &procedures)));
        diagnostics.extend(found.value.iter().flat_map(|job| check_handing(job, &procedures)));
        seen.extend(diagnostics.iter().map(|found| found.code.name));
        let said = render(&diagnostics, &source, Look::PLAIN);
        let beside = path.with_extension("txt");
        if std::env::var_os("BAYHAND_UPDATE").is_some() {
            std::fs::write(&beside, &said).expect("a file of the tests");
        }
        let expected = std::fs::read_to_string(&beside).unwrap_or_default();
        assert!(said == expected, "{} differs from:\n{said}", beside.display());
        assert!(!said.is_empty(), "{stem} is no case");
    }
    for code in CODES {
        assert!(seen.contains(code.name), "{} has no case", code.name);
    }
}
