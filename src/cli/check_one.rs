//! One file checked, and what is told of it and of those that it links to.

use std::collections::HashSet;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::arguments::Check;
use super::check_files::{File, Files};
use super::context::Context;
use super::inputs::{Input, counted, id};
use super::kept::{Kept, KeptBeside, plain};
use crate::answers::{JobScript, Script};
use crate::job;
use crate::procedure::{CheckedProcedure, ReadText, check_sheet, follow, has_front_matter};
use crate::source::{Diagnostic, Found, Severity, SourceText, clean, to_json};
use crate::vehicle::{self, Sheet};

/// What is told of one text.
pub(super) struct Told {
    /// Its plain path, which tells it from others.
    pub(super) path: PathBuf,
    /// As it is written out.
    pub(super) shown: String,
    pub(super) errors: usize,
    pub(super) warnings: usize,
}

/// What became of one file.
#[derive(Default)]
pub(super) struct Checked {
    /// What is told, the file itself first.
    pub(super) told: Vec<Told>,
    /// What is to be said of each sheet that was named.
    pub(super) of_sheets: Vec<Vec<Diagnostic>>,
    /// Why something could not be read.
    pub(super) trouble: Vec<String>,
    /// Whether it is no file of ours.
    pub(super) is_passed_over: bool,
}

/// Checks one file after the other, on any core.
pub(super) struct Checker<'c> {
    context: &'c Context,
    command: &'c Check,
    kept: Kept,
    /// The plain paths of all files that are checked: each is told of in its place.
    listed: HashSet<PathBuf>,
    sheets: &'c [Input<Sheet>],
}

impl<'c> Checker<'c> {
    pub(super) fn of(
        context: &'c Context,
        command: &'c Check,
        files: &Files,
        sheets: &'c [Input<Sheet>],
    ) -> Self {
        let listed = files.all.iter().map(|file| plain(&file.path)).collect();
        Self { context, command, kept: Kept::default(), listed, sheets }
    }

    pub(super) fn check(&self, file: &File) -> Checked {
        let mut checked = Checked::default();
        let Some(read) = self.read(&file.path, !file.is_named, &mut checked) else { return checked };
        let text = match &read {
            Read::Text(text) => text,
            Read::Kept(read) => read.text(),
        };
        let is_toml = file.path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("toml"));
        if is_toml {
            match of_toml(text) {
                Some(said) => checked.told.push(self.told(text, &said)),
                None => checked.is_passed_over = true,
            }
        } else if !file.is_named && !has_front_matter(text.text()) {
            checked.is_passed_over = true;
        } else if job::is_job(text.text()) {
            self.job(&file.path, text, &mut checked);
        } else {
            let procedure = self.procedure(&file.path, read, true, &mut checked);
            checked.of_sheets = self.against_sheets(procedure.as_slice());
        }
        checked
    }

    fn read(&self, path: &Path, may_be_kept: bool, checked: &mut Checked) -> Option<Read> {
        if let Some(read) = may_be_kept.then(|| self.kept.get(path)).flatten() {
            return Some(Read::Kept(read));
        }
        let text = self.context.read_text(path).map_err(|error| checked.trouble.push(error.to_string()));
        text.ok().map(Read::Text)
    }

    /// A job, with everything that is wrong with it and with its procedures.
    fn job(&self, path: &Path, text: &SourceText, checked: &mut Checked) {
        let Found { value, mut diagnostics } = job::read(text, &id(path));
        let folder = path.parent().unwrap_or(Path::new(""));
        let mut procedures = Vec::new();
        let mut of_procedures = Checked::default();
        for planned in value.iter().flat_map(|job| &job.procedures) {
            let path = plain(&folder.join(&planned.address));
            if let Some(read) = self.read(&path, true, checked) {
                let is_told = !self.listed.contains(&path);
                procedures.extend(self.procedure(&path, read, is_told, &mut of_procedures));
            }
        }
        if let Some(job) = value {
            diagnostics.extend(job::check(&job, &procedures));
            diagnostics.extend(job::check_handing(&job, &procedures));
        }
        checked.told.push(self.told(text, &diagnostics));
        checked.told.append(&mut of_procedures.told);
        checked.of_sheets = self.against_sheets(&procedures);
    }

    /// A procedure, with everything that is wrong with it and with those that it links to.
    fn procedure(
        &self,
        path: &Path,
        read: Read,
        is_told: bool,
        checked: &mut Checked,
    ) -> Option<CheckedProcedure> {
        let id = id(path);
        let read = match read {
            Read::Kept(read) => read,
            Read::Text(text) => Arc::new(ReadText::of(text, &id)),
        };
        let text = read.text().clone();
        let folder = path.parent().unwrap_or(Path::new(""));
        let found = follow(read, &id, &KeptBeside { context: self.context, kept: &self.kept, folder });
        if is_told {
            checked.told.push(self.told(&text, &found.diagnostics));
        }
        let linked = found.linked.iter().filter(|linked| !self.listed.contains(&path_of(&linked.text)));
        checked.told.extend(linked.map(|linked| self.told(&linked.text, &linked.diagnostics)));
        found.value
    }

    fn against_sheets(&self, procedures: &[CheckedProcedure]) -> Vec<Vec<Diagnostic>> {
        let against = |input: &Input<Sheet>| {
            let sheet = input.value.iter();
            let said =
                sheet.flat_map(|sheet| procedures.iter().map(|procedure| check_sheet(procedure, sheet)));
            said.flatten().collect()
        };
        self.sheets.iter().map(against).collect()
    }

    fn told(&self, text: &SourceText, diagnostics: &[Diagnostic]) -> Told {
        told(self.context, self.command, text, diagnostics)
    }
}

/// A text, perhaps one that another file linked to before.
enum Read {
    Text(SourceText),
    Kept(Arc<ReadText>),
}

/// What is told of a text.
pub(super) fn told(
    context: &Context,
    command: &Check,
    text: &SourceText,
    diagnostics: &[Diagnostic],
) -> Told {
    let count = |severity| diagnostics.iter().filter(|found| found.severity == severity).count();
    let (errors, warnings) = (count(Severity::Error), count(Severity::Warning));
    let shown = if command.json {
        to_json(diagnostics, text)
    } else {
        format!("{}{}\n", context.diagnosed(diagnostics, text), summary(text.name(), errors, warnings))
    };
    Told { path: path_of(text), shown, errors, warnings }
}

/// What is to be said of a file of answers or of a vehicle sheet; nothing of any other TOML.
fn of_toml(text: &SourceText) -> Option<Vec<Diagnostic>> {
    let sheet = || vehicle::is_sheet(text.text()).then(|| vehicle::read(text).diagnostics);
    of_answers(text).or_else(sheet)
}

/// What is to be said of a file of answers, for a run or for a job; nothing of any other TOML.
pub(super) fn of_answers(text: &SourceText) -> Option<Vec<Diagnostic>> {
    let text = text.text();
    if JobScript::is_one(text) {
        return Some(JobScript::read(text).err().unwrap_or_default());
    }
    Script::is_one(text).then(|| Script::read(text).err().unwrap_or_default())
}

fn path_of(text: &SourceText) -> PathBuf {
    plain(Path::new(text.name()))
}

fn summary(name: &str, errors: usize, warnings: usize) -> String {
    let name = clean(name);
    if errors + warnings == 0 {
        return format!("{name}: nothing to report");
    }
    let (errors, warnings) = (counted(errors, "error"), counted(warnings, "warning"));
    format!("{name}: {errors}, {warnings}; `bayhand explain CODE` teaches each")
}
