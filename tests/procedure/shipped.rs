//! The procedures that come with bayhand are sound, and their example vehicle sheet does for all of them.

use std::path::PathBuf;

use bayhand::procedure::{check_sheet, read};
use bayhand::source::{Look, SourceText, render};
use bayhand::vehicle;

use super::support::{files, text};

#[test]
fn nothing_is_to_be_said_about_them() {
    for path in files("procedures", "md") {
        let name = path.file_stem().unwrap().to_string_lossy().into_owned();
        if name.chars().any(char::is_uppercase) {
            continue;
        }
        let source = SourceText::new(path.display().to_string(), text(&path));
        if bayhand::job::is_job(source.text()) {
            is_a_sound_job(&source, &name);
            continue;
        }
        // One that links to others is read with their files: `bayhand check` does, and the job's own test.
        if source.text().contains("](seized-fastener.md)") && name != "seized-fastener" {
            continue;
        }
        let found = read(&source, &name);
        let said = render(&found.diagnostics, &source, Look::PLAIN);
        let procedure = found.value.unwrap_or_else(|| panic!("{said}"));
        assert!(said.is_empty(), "{said}");
        let sheets = files("procedures", "toml");
        let is_sheet = |path: &&PathBuf| path.file_name().unwrap().to_string_lossy().starts_with("vehicle");
        assert!(sheets.iter().any(|path| is_sheet(&path)));
        for sheet in sheets.iter().filter(is_sheet) {
            let source = SourceText::new(sheet.display().to_string(), text(sheet));
            let found = vehicle::read(&source);
            let said = render(&found.diagnostics, &source, Look::PLAIN);
            let sheet = found.value.unwrap_or_else(|| panic!("{said}"));
            let said = render(&check_sheet(&procedure, &sheet), &source, Look::PLAIN);
            assert!(said.is_empty(), "{said}");
        }
    }
}

/// Every procedure of a job is there.
fn is_a_sound_job(source: &SourceText, name: &str) {
    let found = bayhand::job::read(source, name);
    let said = render(&found.diagnostics, source, Look::PLAIN);
    let job = found.value.unwrap_or_else(|| panic!("{said}"));
    for planned in job.procedures {
        let path = PathBuf::from("procedures").join(&planned.address);
        assert!(path.exists(), "{} is not there", path.display());
    }
}
