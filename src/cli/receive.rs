//! `bayhand receive`

use std::path::{Path, PathBuf};

use super::Exit;
use super::arguments::{Check, Receive};
use super::check;
use super::context::Context;
use crate::job;
use crate::share::{Bundle, Placed, SharedPath, Standing, differences, links, place, unpack};
use crate::terminal::{Line, Role, Text};

/// The largest archive that is looked at.
const MOST: u64 = 64 << 20;

/// Takes what somebody shared into a folder, checks it, and says how it is run.
pub(super) fn receive(context: &Context, command: &Receive) -> Exit {
    match received(context, command) {
        Ok(exit) | Err(exit) => exit,
    }
}

fn received(context: &Context, command: &Receive) -> Result<Exit, Exit> {
    let disk = context.system.disk();
    let archive = disk.read(&command.archive, MOST).map_err(|error| context.trouble(&error))?;
    let bundle = unpack(&archive)
        .map_err(|refused| context.found(&format!("{}: {refused}", command.archive.display())))?;
    let places = place(disk, &command.folder, &bundle)
        .map_err(|error| context.trouble(&format!("{error}; nothing was written")))?;
    let differing: Vec<&Placed<'_>> = places.files.iter().filter(|one| one.there().is_some()).collect();
    if !differing.is_empty() && !command.replace {
        context.tell(&conflict(&differing));
        return Err(Exit::Found);
    }
    let kept = places.write(disk).map_err(|error| {
        context.trouble(&format!("{error}; everything is as it was; {}", error.way_out()))
    })?;
    context.show(&told(command, &places.files, &kept));
    Ok(checked(context, &command.folder, &bundle))
}

/// What differs, file by file.
fn conflict(differing: &[&Placed<'_>]) -> Text {
    let head = Line::new()
        .with(Role::Strong, "bayhand: ")
        .with(Role::Plain, "nothing was written: what is there differs from what came (`-` there, `+` came).")
        .hang(2);
    let text = differing.iter().fold(Text::from(head), |text, one| {
        let lines = differences(one.there().unwrap_or_default(), one.bytes);
        let text = text.line(Line::new().with(Role::Strong, one.path.as_str()));
        lines.into_iter().fold(text, |text, line| text.line(Line::plain(line).indent(2).hang(2)))
    });
    text.line(Line::plain(
        "Name another folder; or with `--replace` what came is taken, and what is there is kept beside it.",
    ))
}

fn told(command: &Receive, placed: &[Placed<'_>], kept: &[PathBuf]) -> Text {
    let count = |standing: fn(&Standing) -> bool| placed.iter().filter(|one| standing(&one.standing)).count();
    let new = count(|standing| !matches!(standing, Standing::Same));
    let same = count(|standing| matches!(standing, Standing::Same));
    let left = if same == 0 { String::new() } else { format!(" {same} are there already, the same.") };
    let text = Text::plain(&format!("{new} files were written into {}.{left}", command.folder.display()));
    kept.iter().fold(text, |text, path| text.line(Line::plain(format!("Kept: {}", path.display())).indent(2)))
}

/// Checks what came, and says how it is run.
fn checked(context: &Context, folder: &Path, bundle: &Bundle) -> Exit {
    let at = |path: &SharedPath| path.names().fold(folder.to_owned(), |at, name| at.join(name));
    let starts = starts(bundle);
    let sheets: Vec<PathBuf> = with_ending(bundle, ".toml").map(|(path, _)| at(path)).collect();
    if starts.is_empty() {
        return context.show(&Text::plain("There is no procedure among them."));
    }
    let files: Vec<PathBuf> = starts.iter().map(|path| at(path)).chain(sheets.iter().cloned()).collect();
    let exit = check::check(context, &Check { files, json: false, strict: false });
    if exit != Exit::Done {
        return exit;
    }
    let vehicle = match &sheets[..] {
        [sheet] => format!(" --vehicle {}", typed(sheet)),
        _ => String::new(),
    };
    let lines = starts.iter().map(|path| format!("bayhand run {}{vehicle}", typed(&at(path))));
    let text = Text::plain("To run it:");
    context.show(&lines.fold(text, |text, line| text.line(Line::plain(line).indent(2).hang(2))))
}

/// What a person begins with: the jobs; without any, the procedures that no other one leads to.
fn starts(bundle: &Bundle) -> Vec<&SharedPath> {
    let texts: Vec<(&SharedPath, &str)> = with_ending(bundle, ".md").collect();
    let jobs: Vec<&SharedPath> =
        texts.iter().filter(|(_, text)| job::is_job(text)).map(|(path, _)| *path).collect();
    if !jobs.is_empty() {
        return jobs;
    }
    let led_to: Vec<String> =
        texts.iter().flat_map(|(from, text)| links(from.as_str(), text.as_bytes())).collect();
    let procedures = texts.iter().filter(|(_, text)| text.starts_with("+++"));
    let first = procedures.map(|(path, _)| *path);
    first.filter(|path| !led_to.iter().any(|other| other == path.as_str())).collect()
}

fn with_ending<'b>(
    bundle: &'b Bundle,
    ending: &'static str,
) -> impl Iterator<Item = (&'b SharedPath, &'b str)> {
    let named = bundle.files().filter(move |(path, _)| path.as_str().to_lowercase().ends_with(ending));
    named.filter_map(|(path, bytes)| Some((path, std::str::from_utf8(bytes).ok()?)))
}

/// A path as it is typed: in quotes, where a space would end it.
fn typed(path: &Path) -> String {
    let path = path.display().to_string();
    if path.contains(' ') { format!("\"{path}\"") } else { path }
}
