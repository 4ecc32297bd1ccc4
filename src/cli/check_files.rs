//! The files that `check` is asked to look at: those that are named, and those in a folder that are ours.

use std::path::{Path, PathBuf};

use super::Exit;
use super::context::Context;
use super::inputs::counted;
use super::kept::plain;
use crate::source::clean;

/// A file to be checked.
pub(super) struct File {
    pub(super) path: PathBuf,
    /// Whether it was named itself, and not found in a folder.
    pub(super) is_named: bool,
}

/// The files to be checked.
pub(super) struct Files {
    pub(super) all: Vec<File>,
    /// Whether a folder was named.
    pub(super) of_folder: bool,
    pub(super) passed_over: PassedOver,
    pub(super) exit: Exit,
}

/// What lies in a folder and looks like a file of ours, and is none.
#[derive(Clone, Default)]
pub(super) struct PassedOver {
    /// Pages without front matter, and TOML that is neither a vehicle sheet nor a file of answers.
    pub(super) foreign: Several,
    /// Links to folders, pipes and devices.
    odd: Several,
}

impl PassedOver {
    /// A line for each sort.
    pub(super) fn in_words(&self) -> String {
        let foreign = "no procedure, job, vehicle sheet or file of answers";
        let odd = "a link to a folder, a pipe or a device";
        format!("{}{}", self.foreign.in_words(foreign), self.odd.in_words(odd))
    }
}

/// Several files, the first of them by name.
#[derive(Clone, Default)]
pub(super) struct Several {
    first: Vec<PathBuf>,
    count: usize,
}

impl Several {
    /// How many are named.
    const NAMED: usize = 3;

    pub(super) fn add(&mut self, path: &Path) {
        if self.first.len() < Self::NAMED {
            self.first.push(path.to_owned());
        }
        self.count += 1;
    }

    fn in_words(&self, what: &str) -> String {
        if self.count == 0 {
            return String::new();
        }
        let names: Vec<String> =
            self.first.iter().map(|path| format!("`{}`", clean(&path.display().to_string()))).collect();
        let more = match self.count - self.first.len() {
            0 => String::new(),
            more => format!(" and {more} more"),
        };
        format!("passed over {} ({what}): {}{more}\n", counted(self.count, "file"), names.join(", "))
    }
}

/// The files that are named, and in place of each folder what lies in it, in the order of the paths.
pub(super) fn files(context: &Context, named: &[&PathBuf]) -> Files {
    let mut files =
        Files { all: Vec::new(), of_folder: false, passed_over: PassedOver::default(), exit: Exit::Done };
    for path in named {
        if context.system.disk().list(path).is_ok() {
            files.of_folder = true;
            files.add_folder(context, &plain(path));
        } else {
            files.all.push(File { path: (*path).clone(), is_named: true });
        }
    }
    files
}

impl Files {
    fn add_folder(&mut self, context: &Context, folder: &Path) {
        let first = self.all.len();
        let mut open = vec![folder.to_owned()];
        while let Some(folder) = open.pop() {
            let here = if folder.as_os_str().is_empty() { Path::new(".") } else { &folder };
            let entries = match context.system.disk().list(here) {
                Ok(entries) => entries,
                Err(error) => {
                    self.exit = context.trouble(&error);
                    continue;
                }
            };
            for entry in entries.into_iter().filter(|entry| !entry.name.starts_with('.')) {
                let path = folder.join(&entry.name);
                let is_ours = path.extension().is_some_and(|ending| {
                    ending.eq_ignore_ascii_case("md") || ending.eq_ignore_ascii_case("toml")
                });
                match entry {
                    // A link to a folder may lead back to where it lies.
                    _ if entry.is_folder && entry.is_link => self.passed_over.odd.add(&path),
                    _ if entry.is_folder => open.push(path),
                    _ if is_ours && entry.is_file => self.all.push(File { path, is_named: false }),
                    _ if is_ours => self.passed_over.odd.add(&path),
                    _ => {}
                }
            }
        }
        if let Some(found) = self.all.get_mut(first..) {
            found.sort_by(|one, other| one.path.cmp(&other.path));
        }
    }
}
