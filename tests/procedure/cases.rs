//! Golden cases: `tests/cases/procedure/NAME.md` is read, what is said about it stands in `NAME.txt`; a vehicle
//! sheet is `NAME.toml`, judged beside the procedure that [`judged_beside`] names.
//! Links lead to files of that folder.
//! `BAYHAND_UPDATE=1 cargo test` writes the expectations anew.

use std::collections::BTreeSet;
use std::path::Path;

use bayhand::procedure::{Library, NotFound, check_sheet, codes, read_linked};
use bayhand::source::{Diagnostic, Look, SourceText, render};
use bayhand::vehicle;

use super::support::{file, files, repository, sound, text};

const FOLDER: &str = "tests/cases/procedure";

fn stem(path: &Path) -> String {
    path.file_stem().unwrap().to_string_lossy().into_owned()
}

/// The files of the cases, and one that is too long to be written down.
struct Cases;

impl Library for Cases {
    fn find(&self, address: &str) -> Result<SourceText, NotFound> {
        if address == "linked/long.md" {
            return Ok(SourceText::new(
                address,
                file(
                    "",
                    &format!(
                        "# Long

{}",
                        "1. Go on.
"
                        .repeat(10_001)
                    ),
                ),
            ));
        }
        let text = std::fs::read_to_string(repository(FOLDER).join(address));
        text.map(|text| SourceText::new(address, text))
            .map_err(|_| NotFound { why: format!("no file `{address}`") })
    }

    fn picture(&self, address: &str) -> Result<(), NotFound> {
        let is_there = repository(FOLDER).join(address).exists();
        if is_there { Ok(()) } else { Err(NotFound { why: format!("no file `{address}`") }) }
    }
}

fn said_about_procedure(path: &Path) -> (Vec<Diagnostic>, SourceText) {
    let source = SourceText::new(path.file_name().unwrap().to_string_lossy(), text(path));
    (read_linked(&source, &stem(path), &Cases).diagnostics, source)
}

/// The procedure that a vehicle sheet is judged beside.
fn judged_beside(stem: &str) -> Option<&'static str> {
    match stem {
        "sheet-value-choice" | "sheet-value-ceiling" => Some("vehicle-limits.md"),
        _ if stem.starts_with("sheet-limits") || stem.starts_with("vehicle-limits") => {
            Some("vehicle-limits.md")
        }
        _ if stem.starts_with("sheet-value") => Some("sheet-procedure.md"),
        _ => None,
    }
}

fn said_about_sheet(path: &Path) -> (Vec<Diagnostic>, SourceText) {
    let source = SourceText::new(path.file_name().unwrap().to_string_lossy(), text(path));
    let found = vehicle::read(&source);
    let mut diagnostics = found.diagnostics;
    if let Some(procedure) = judged_beside(&stem(path)) {
        let procedure = sound(&text(&repository(FOLDER).join(procedure)));
        diagnostics.extend(check_sheet(&procedure, &found.value.unwrap()));
    }
    (diagnostics, source)
}

fn all() -> Vec<(std::path::PathBuf, Vec<Diagnostic>, SourceText)> {
    let procedures = files(FOLDER, "md").into_iter().map(|path| {
        let (diagnostics, source) = said_about_procedure(&path);
        (path, diagnostics, source)
    });
    let sheets = files(FOLDER, "toml").into_iter().map(|path| {
        let (diagnostics, source) = said_about_sheet(&path);
        (path, diagnostics, source)
    });
    procedures.chain(sheets).collect()
}

#[test]
fn what_is_said_is_what_is_expected() {
    let update = std::env::var_os("BAYHAND_UPDATE").is_some();
    let mut wrong = Vec::new();
    for (path, diagnostics, source) in all() {
        let rendered = render(&diagnostics, &source, Look::PLAIN);
        let expectation = path.with_extension("txt");
        if update {
            std::fs::write(&expectation, &rendered).unwrap();
        }
        let expected = std::fs::read_to_string(&expectation).unwrap_or_default();
        if rendered.trim_end() != expected.trim_end() {
            wrong.push(format!("{}\n--- expected\n{expected}\n--- found\n{rendered}", path.display()));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
}

#[test]
fn a_case_is_named_after_the_code_it_shows() {
    for (path, diagnostics, _) in all() {
        let stem = stem(&path);
        let raised: BTreeSet<_> = diagnostics.iter().map(|diagnostic| diagnostic.code.name).collect();
        let known = codes().into_iter().chain(vehicle::CODES.iter().copied()).map(|code| code.name);
        if let Some(code) =
            known.into_iter().filter(|code| stem.starts_with(code)).max_by_key(|code| code.len())
        {
            assert!(raised.contains(code), "{} raises {raised:?}", path.display());
        }
    }
}

#[test]
fn each_code_has_a_case() {
    let raised: BTreeSet<_> = all().iter().flat_map(|(_, said, _)| said).map(|said| said.code.name).collect();
    let known = codes().into_iter().chain(vehicle::CODES.iter().copied());
    let silent: Vec<_> = known.map(|code| code.name).filter(|code| !raised.contains(code)).collect();
    assert!(silent.is_empty(), "no case shows {silent:?}");
}

#[test]
fn every_diagnostic_says_where_and_what_to_type() {
    for (path, diagnostics, source) in all() {
        for said in diagnostics {
            let place = said.place();
            assert!(place.is_some(), "{}: {} has no place", path.display(), said.message);
            assert!(
                said.labels
                    .iter()
                    .all(|label| label.span.end <= source.text().len() && !label.text.is_empty())
            );
            assert!(said.help.is_some(), "{}: {} has no help", path.display(), said.message);
        }
    }
}

#[test]
fn ten_different_mistakes_are_all_reported() {
    let (diagnostics, _) = said_about_procedure(&repository(FOLDER).join("ten-mistakes.md"));
    let raised: BTreeSet<_> = diagnostics.iter().map(|diagnostic| diagnostic.code.name).collect();
    assert_eq!(raised.len(), 10, "{raised:?}");
}

#[test]
fn a_mended_text_is_mended() {
    for (path, diagnostics, source) in all() {
        for said in diagnostics.iter().filter(|said| said.fix.is_some()) {
            let fix = said.fix.as_ref().unwrap();
            let mended =
                format!("{}{}{}", &source.text()[..fix.span.start], fix.text, &source.text()[fix.span.end..]);
            let again = match path.extension().unwrap().to_str() {
                Some("md") => read_linked(&SourceText::new("mended", mended), "mended", &Cases).diagnostics,
                _ => vehicle::read(&SourceText::new("mended", mended)).diagnostics,
            };
            let same = |other: &&Diagnostic| other.code == said.code && other.message == said.message;
            let before = diagnostics.iter().filter(same).count();
            assert!(again.iter().filter(same).count() < before, "{}: {}", path.display(), said.message);
        }
    }
}
