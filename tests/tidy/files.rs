//! The files of the project, for the other tests of this folder.

use std::fs;
use std::path::{Path, PathBuf};

/// The folder of the project.
pub fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// Every file below a folder of the project, with its text where it is one.
pub fn below(folder: &str) -> Vec<(PathBuf, String)> {
    let mut found = Vec::new();
    let mut waiting = vec![root().join(folder)];
    while let Some(path) = waiting.pop() {
        if path.is_dir() {
            waiting.extend(fs::read_dir(&path).unwrap().map(|entry| entry.unwrap().path()));
        } else if let Ok(text) = fs::read_to_string(&path) {
            found.push((path.strip_prefix(root()).unwrap().to_path_buf(), text));
        }
    }
    found.sort();
    found
}

#[test]
fn the_top_level_holds_what_the_owner_named() {
    const NAMED: [&str; 8] =
        ["Cargo.toml", "README.md", "DEVELOPERS.md", "src", "procedures", "tests", "LICENSE", "target"];
    const TOOLS: [&str; 4] = ["Cargo.lock", "clippy.toml", "rustfmt.toml", "proptest-regressions"];
    for entry in fs::read_dir(root()).unwrap() {
        let name = entry.unwrap().file_name().into_string().unwrap();
        let known = NAMED.contains(&name.as_str()) || TOOLS.contains(&name.as_str()) || name.starts_with('.');
        assert!(known, "`{name}` stands at the top level");
    }
}

/// A new machine has only the packages that its own build asks for, and perhaps no network: cargo builds the tests, and
/// no test asks it for anything.
#[test]
fn no_test_calls_cargo() {
    let calls = [concat!("Command::new(\"", "cargo"), concat!("(\"", "CARGO\")")];
    for (path, text) in below("tests") {
        for call in calls {
            assert!(!text.contains(call), "{} has `{call}`", path.display());
        }
    }
}
