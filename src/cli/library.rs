//! `bayhand library`: the procedures inside the program, for a machine without a clone.

use std::path::Path;

use super::Exit;
use super::arguments::{Library, LibraryDeed};
use super::context::Context;
use super::library_files::FILES;
use crate::system::DiskError;

pub(super) fn library(context: &Context, command: &Library) -> Exit {
    match &command.deed {
        None => context.write(&list()),
        Some(LibraryDeed::Copy { folder }) => copy(context, folder),
    }
}

/// A line a file: its name, and what it calls itself.
fn list() -> String {
    let line = |(name, text): &(&str, &str)| {
        let title = text.lines().find_map(|line| line.strip_prefix("# ")).unwrap_or_default();
        format!("{:<26} {title}", name.strip_suffix(".md").unwrap_or(name)).trim_end().to_owned() + "\n"
    };
    let lines: String = FILES.iter().map(line).collect();
    format!(
        "{lines}\nEach command takes these names where it takes a file, `--vehicle vehicle-example` too; `bayhand library copy FOLDER`\nwrites the files out.\n"
    )
}

/// Writes the files out. What stands there already stays as it is.
fn copy(context: &Context, folder: &Path) -> Exit {
    let disk = context.system.disk();
    if let Err(error) = disk.make_folder(folder) {
        return context.trouble(&error);
    }
    let written = FILES.iter().map(|(name, text)| put(context, folder, (name, text)));
    match written.collect::<Result<Vec<_>, _>>() {
        Err(error) => context.trouble(&error),
        Ok(put) => {
            let differing: Vec<&str> = put.into_iter().flatten().collect();
            let said = if differing.is_empty() {
                String::new()
            } else {
                format!(" Left as they are, and different: {}.", differing.join(", "))
            };
            context.write(&format!("{} files are in {}.{said}\n", FILES.len(), folder.display()));
            if differing.is_empty() { Exit::Done } else { Exit::Found }
        }
    }
}

/// Writes one file, where it is not there; its name, where another text stands there.
fn put(
    context: &Context,
    folder: &Path,
    (name, text): (&'static str, &str),
) -> Result<Option<&'static str>, DiskError> {
    let (disk, path) = (context.system.disk(), folder.join(name));
    match disk.read_text(&path, u64::MAX) {
        Ok(there) if there == text => Ok(None),
        Ok(_) => Ok(Some(name)),
        Err(_) => disk.write_new(&path, text.as_bytes()).map(|()| None),
    }
}
