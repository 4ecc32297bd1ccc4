//! What the tests of this area share.

use std::path::{Path, PathBuf};

use bayhand::procedure::{CheckedProcedure, read};
use bayhand::source::{Found, SourceText};

/// A front matter that is complete, up to its last line; tables and body follow it.
pub const HEAD: &str = "\
+++
format = 1
revision = \"A\"
date = 2026-11-25
author = \"a tester\"
scope = \"any vehicle\"
level_of_use = \"continuous\"
tools = \"none\"
materials = \"none\"
parts = \"none\"
required = \"none\"
close_up = \"none\"
";

/// A procedure file with these tables and this body.
pub fn file(tables: &str, body: &str) -> String {
    let hazards = if tables.contains("[hazards") { "" } else { "hazards = \"none\"\n" };
    format!("{HEAD}{hazards}[roles]\nlead = \"does the work\"\n{tables}+++\n{body}")
}

/// What is made of a text.
pub fn found(text: &str) -> Found<Option<CheckedProcedure>> {
    read(&SourceText::new("case.md", text), "case")
}

/// The codes of what is said about a text, in order.
pub fn codes(text: &str) -> Vec<&'static str> {
    found(text).diagnostics.iter().map(|diagnostic| diagnostic.code.name).collect()
}

/// The procedure of a text that must be sound.
pub fn sound(text: &str) -> CheckedProcedure {
    let found = found(text);
    let said: Vec<_> = found.diagnostics.iter().map(|diagnostic| &diagnostic.message).collect();
    found.value.unwrap_or_else(|| panic!("{said:#?}"))
}

/// A path inside the repository.
pub fn repository(path: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(path)
}

/// The files of a folder with this ending, sorted.
pub fn files(folder: &str, ending: &str) -> Vec<PathBuf> {
    let entries = std::fs::read_dir(repository(folder)).unwrap();
    let paths = entries.map(|entry| entry.unwrap().path());
    let mut paths: Vec<_> =
        paths.filter(|path| path.extension().is_some_and(|found| found == ending)).collect();
    paths.sort();
    paths
}

/// A file's text, line endings as they are.
pub fn text(path: &Path) -> String {
    String::from_utf8(std::fs::read(path).unwrap()).unwrap()
}
