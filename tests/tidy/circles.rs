//! The files of a layer hang in no circle: each uses only files that do not use it, however far around.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use super::files::below;

#[test]
fn no_file_of_a_layer_comes_back_to_itself() {
    let files = below("src");
    let layer = |path: &Path| path.components().nth(1).map(|part| part.as_os_str().to_owned());
    let layers: BTreeSet<_> = files.iter().filter_map(|(path, _)| layer(path)).collect();
    for of in layers {
        let inside = files.iter().filter(|(path, _)| layer(path).as_ref() == Some(&of));
        let circles = Layer::of(inside.map(|(path, text)| (path.as_path(), text.as_str()))).in_circles();
        assert!(circles.is_empty(), "these use each other, however far around: {circles:?}");
    }
}

#[test]
fn a_circle_is_found() {
    let files = [
        ("a", "use crate::run::deep::b::Thing;\n"),
        ("deep/b", "use super::{c, d::{Deep, Other}};\n"),
        ("deep/c", "fn f() { super::super::passed::<u8>() }\n"),
        ("deep/d", "// use super::b;\n"),
        ("mod", "pub use a::{passed, sent};\n"),
    ];
    let files = files.map(|(name, text)| (format!("src/run/{name}.rs"), text));
    let layer = Layer::of(files.iter().map(|(path, text)| (Path::new(path), *text)));
    assert_eq!(layer.in_circles(), ["run::a", "run::deep::b", "run::deep::c"].map(str::to_owned).into());
}

/// The files of a layer by their modules, each with those that it uses. What a `mod.rs` passes on is followed to where it
/// is.
struct Layer {
    uses: BTreeMap<String, BTreeSet<String>>,
}

impl Layer {
    fn of<'t>(files: impl Iterator<Item = (&'t Path, &'t str)>) -> Self {
        let (lists, files): (Vec<_>, Vec<_>) =
            files.map(|(path, text)| (module(path), code(text))).partition(|(name, _)| is_list(name));
        let passed_on: BTreeMap<String, String> =
            lists.iter().flat_map(|(name, text)| passed_on(name, text)).collect();
        let names: BTreeSet<&String> = files.iter().map(|(name, _)| name).collect();
        let used = |name: &String, text: &str| {
            let files = paths(name, text).into_iter().filter_map(|path| file_of(path, &names, &passed_on));
            files.filter(|used| used != name).collect()
        };
        Self { uses: files.iter().map(|(name, text)| (name.clone(), used(name, text))).collect() }
    }

    /// The files that can be reached from themselves.
    fn in_circles(&self) -> BTreeSet<String> {
        let comes_back = |start: &&String| {
            let mut open: Vec<&String> = self.uses[*start].iter().collect();
            let mut seen = BTreeSet::new();
            while let Some(at) = open.pop() {
                if at == *start {
                    return true;
                }
                if seen.insert(at) {
                    open.extend(self.uses.get(at).into_iter().flatten());
                }
            }
            false
        };
        self.uses.keys().filter(comes_back).cloned().collect()
    }
}

fn module(path: &Path) -> String {
    let path = path.with_extension("");
    let parts = path.components().skip(1).map(|part| part.as_os_str().to_str().unwrap());
    parts.collect::<Vec<_>>().join("::")
}

/// Whether it is a `mod.rs`, which only lists and passes on.
fn is_list(module: &str) -> bool {
    module.ends_with("::mod") || module == "lib" || module == "main"
}

fn code(text: &str) -> String {
    let code = text.lines().filter(|line| !line.trim_start().starts_with("//"));
    code.collect::<Vec<_>>().join("\n")
}

/// Every path that a text names, from the top of the crate; each leaf of a list by itself.
fn paths(module: &str, text: &str) -> Vec<String> {
    let starts = text.match_indices("crate::").chain(text.match_indices("super::"));
    let first = starts.filter(|(at, _)| {
        let before = text[..*at].chars().next_back();
        before.is_none_or(|before| !before.is_alphanumeric() && before != '_' && before != ':')
    });
    first.flat_map(|(at, _)| leaves(&text[at..])).map(|path| from_top(module, &path)).collect()
}

/// `a::{b, c::{d, e}}` names `a::b`, `a::c::d` and `a::c::e`.
fn leaves(text: &str) -> Vec<String> {
    let is_part = |letter: char| letter.is_alphanumeric() || "_:".contains(letter);
    let (path, rest) = text.split_at(text.find(|letter| !is_part(letter)).unwrap_or(text.len()));
    let Some(list) = rest.strip_prefix('{').filter(|_| path.ends_with("::")) else {
        return vec![path.trim_end_matches(':').to_owned()];
    };
    let inner = list_items(list).into_iter().flat_map(leaves);
    inner.map(|leaf| format!("{path}{leaf}")).collect()
}

/// The items of a list up to the brace that ends it.
fn list_items(list: &str) -> Vec<&str> {
    let (mut items, mut begin, mut depth) = (Vec::new(), 0, 0);
    for (at, letter) in list.char_indices() {
        match letter {
            '{' => depth += 1,
            '}' if depth > 0 => depth -= 1,
            ',' | '}' if depth == 0 => {
                items.push(list[begin..at].trim());
                begin = at + 1;
                if letter == '}' {
                    break;
                }
            }
            _ => {}
        }
    }
    items
}

fn from_top(module: &str, path: &str) -> String {
    let mut base: Vec<&str> = module.split("::").collect();
    let mut rest = path;
    while let Some(above) = rest.strip_prefix("super::") {
        base.pop();
        rest = above;
    }
    match rest.strip_prefix("crate::") {
        Some(rest) => rest.to_owned(),
        None => format!("{}::{rest}", base.join("::")),
    }
}

/// What a `mod.rs` passes on, under the name that it has there, and where it is.
fn passed_on(list: &str, text: &str) -> Vec<(String, String)> {
    let folder = list.trim_end_matches("::mod");
    let uses = text.split(" use ").skip(1).filter_map(|rest| rest.split(';').next());
    let paths = uses.flat_map(leaves).map(|path| match path.strip_prefix("crate::") {
        Some(path) => path.to_owned(),
        None => from_top(&format!("{folder}::mod"), &format!("super::{path}")),
    });
    let named = paths.filter_map(|path| {
        let name = path.rsplit("::").next()?;
        Some((format!("{folder}::{name}"), path.clone()))
    });
    named.filter(|(name, path)| name != path).collect()
}

/// The file that a path leads to, through what is passed on.
fn file_of(path: String, files: &BTreeSet<&String>, passed_on: &BTreeMap<String, String>) -> Option<String> {
    let mut path = path;
    for _ in 0..8 {
        if let Some(file) = longest(&path, |part| files.contains(part)) {
            return Some(file);
        }
        let known = longest(&path, |part| passed_on.contains_key(part))?;
        path = format!("{}{}", passed_on[&known], &path[known.len()..]);
    }
    None
}

fn longest(path: &str, known: impl Fn(&String) -> bool) -> Option<String> {
    let parts: Vec<&str> = path.split("::").collect();
    (1..=parts.len()).rev().map(|end| parts[..end].join("::")).find(known)
}
