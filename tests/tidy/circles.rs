//! The files of `run/` hang in no circle: each uses only files that do not use it, however far around.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use super::files::below;

/// Which file uses which, by their modules; `mod.rs` files only list and pass on.
type Uses = BTreeMap<String, BTreeSet<String>>;

#[test]
fn no_file_of_a_run_comes_back_to_itself() {
    let circles = in_circles(&uses(&below("src/run")));
    assert!(circles.is_empty(), "these use each other, however far around: {circles:?}");
}

#[test]
fn a_circle_is_found() {
    let file =
        |name: &str, text: &str| (std::path::PathBuf::from(format!("src/run/{name}.rs")), text.to_owned());
    let files = [
        file("a", "use crate::run::deep::b::Thing;\n"),
        file("deep/b", "use crate::run::deep::{c, d::Other};\n"),
        file("deep/c", "fn f() { crate::run::a::g() }\n"),
        file("deep/d", ""),
    ];
    let found = in_circles(&uses(&files));
    assert_eq!(found, ["run::a", "run::deep::b", "run::deep::c"].map(str::to_owned).into());
}

fn module(path: &Path) -> String {
    let path = path.with_extension("");
    let parts = path.components().skip(1).map(|part| part.as_os_str().to_str().unwrap());
    parts.collect::<Vec<_>>().join("::")
}

fn uses<P: AsRef<Path>, T: AsRef<str>>(files: &[(P, T)]) -> Uses {
    let files: Vec<(String, &str)> =
        files.iter().map(|(path, text)| (module(path.as_ref()), text.as_ref())).collect();
    let files: Vec<_> =
        files.into_iter().filter(|(name, _)| !name.ends_with("::mod") && name != "run::mod").collect();
    let names: BTreeSet<&str> = files.iter().map(|(name, _)| name.as_str()).collect();
    let used = |text: &str| -> BTreeSet<String> {
        named(text).iter().filter_map(|path| longest(path, &names)).collect()
    };
    files.iter().map(|(name, text)| (name.clone(), used(text))).collect()
}

/// Every path into `crate::run` that a text names, each leaf of a list by itself.
fn named(text: &str) -> Vec<String> {
    let code: Vec<&str> = text.lines().filter(|line| !line.trim_start().starts_with("//")).collect();
    let code = code.join("\n");
    let paths = code.split("crate::run::").skip(1).map(|rest| {
        let is_part = |letter: char| letter.is_alphanumeric() || "_:".contains(letter);
        let end = rest.find(|letter: char| !is_part(letter)).unwrap_or(rest.len());
        let (path, rest) = rest.split_at(end);
        let list = rest.strip_prefix('{').and_then(|rest| rest.split("};").next()).unwrap_or_default();
        let leaves = list.split(',').map(|leaf| leaf.trim().split(' ').next().unwrap_or_default());
        leaves.map(|leaf| format!("run::{path}{leaf}")).collect::<Vec<_>>()
    });
    paths.flatten().collect()
}

fn longest(path: &str, names: &BTreeSet<&str>) -> Option<String> {
    let parts: Vec<&str> = path.split("::").collect();
    let longer_first = (1..=parts.len()).rev().map(|end| parts[..end].join("::"));
    longer_first.into_iter().find(|path| names.contains(path.as_str()))
}

/// The files that can be reached from themselves.
fn in_circles(uses: &Uses) -> BTreeSet<String> {
    let comes_back = |start: &String| {
        let mut open: Vec<&String> = uses[start].iter().filter(|used| *used != start).collect();
        let mut seen = BTreeSet::new();
        while let Some(at) = open.pop() {
            if at == start {
                return true;
            }
            if seen.insert(at) {
                open.extend(uses.get(at).into_iter().flatten().filter(|used| *used != at));
            }
        }
        false
    };
    uses.keys().filter(|name| comes_back(name)).cloned().collect()
}
