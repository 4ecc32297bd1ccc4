//! `bayhand check`

use std::collections::HashSet;
use std::path::{Path, PathBuf};

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressStyle};

use super::Exit;
use super::arguments::Check;
use super::check_files::{File, Files, PassedOver, files};
use super::check_one::{Checked, Checker, Told, of_answers, told};
use super::context::Context;
use super::in_order::in_order;
use super::inputs::{self, Input, counted};
use super::library_files::find;
use crate::source::Diagnostic;
use crate::vehicle::Sheet;

/// From so many files on it is shown how far the check is.
const MANY: usize = 50;

/// Checks files and folders and tells everything that is wrong with them.
pub(super) fn check(context: &Context, command: &Check) -> Exit {
    let (sheets, procedures): (Vec<_>, Vec<_>) = command.files.iter().partition(|path| is_sheet(path));
    let files = files(context, &procedures);
    let mut report = Report::of(context, command, &files);
    let mut read = Vec::new();
    for path in sheets {
        match inputs::sheet(context, path) {
            Ok(input) => read.push(input),
            Err(exit) => report.exit = exit,
        }
    }
    let mut of_sheets = vec![Vec::new(); read.len()];
    let checker = Checker::of(context, command, &files, &read);
    let bar = bar(context, files.all.len());
    let mut in_turn = files.all.iter();
    in_order(
        context.system.cores(),
        &files.all,
        |file| checker.check(file),
        |mut found: Checked| {
            for (all, said) in of_sheets.iter_mut().zip(std::mem::take(&mut found.of_sheets)) {
                all.extend(said);
            }
            bar.inc(1);
            bar.suspend(|| report.add(in_turn.next(), found));
        },
    );
    bar.finish_and_clear();
    for (sheet, said) in read.iter().zip(of_sheets) {
        report.tell(of_sheet(context, command, sheet, said));
    }
    report.end()
}

/// A sheet or a file of answers, by the ending; one inside the program is also known without it.
fn is_sheet(path: &Path) -> bool {
    let inside = path.extension().is_none().then(|| find(path)).flatten();
    let name = inside.map_or_else(|| path.to_owned(), |text| PathBuf::from(text.name()));
    name.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("toml"))
}

/// A file of answers, or a sheet with what the procedures say of it.
fn of_sheet(context: &Context, command: &Check, input: &Input<Sheet>, against: Vec<Diagnostic>) -> Told {
    let text = &input.text;
    let said = of_answers(text).unwrap_or_else(|| [input.diagnostics.clone(), against].concat());
    told(context, command, text, &said)
}

fn bar(context: &Context, files: usize) -> ProgressBar {
    if files < MANY || !context.shows_progress() {
        return ProgressBar::hidden();
    }
    let bar = ProgressBar::with_draw_target(u64::try_from(files).ok(), ProgressDrawTarget::stderr());
    match ProgressStyle::with_template("checked {human_pos} of {human_len} {wide_bar}") {
        Ok(style) => bar.with_style(style),
        Err(_) => bar,
    }
}

/// What was told so far.
struct Report<'c> {
    context: &'c Context,
    command: &'c Check,
    /// Whether a folder was named: its sound files are counted, not named.
    of_folder: bool,
    /// A file that is named and linked to, or linked to twice, is told of once.
    known: HashSet<PathBuf>,
    sound: usize,
    wrong: usize,
    passed_over: PassedOver,
    exit: Exit,
}

impl<'c> Report<'c> {
    fn of(context: &'c Context, command: &'c Check, files: &Files) -> Self {
        Self {
            context,
            command,
            of_folder: files.of_folder,
            known: HashSet::new(),
            sound: 0,
            wrong: 0,
            passed_over: files.passed_over.clone(),
            exit: files.exit,
        }
    }

    fn add(&mut self, file: Option<&File>, found: Checked) {
        for trouble in found.trouble {
            let exit = self.context.trouble(&trouble);
            self.worsen(exit);
        }
        if let Some(file) = file.filter(|_| found.is_passed_over) {
            self.passed_over.foreign.add(&file.path);
        }
        found.told.into_iter().for_each(|told| self.tell(told));
    }

    fn tell(&mut self, told: Told) {
        if !self.known.insert(told.path) {
            return;
        }
        let is_sound = told.errors + told.warnings == 0;
        let count = if is_sound { &mut self.sound } else { &mut self.wrong };
        *count += 1;
        if !(is_sound && self.of_folder) {
            let written = if self.command.json {
                self.context.write(&told.shown)
            } else {
                self.context.write_diagnosed(&told.shown)
            };
            self.worsen(written);
        }
        if told.errors > 0 || (self.command.strict && told.warnings > 0) {
            self.worsen(Exit::Found);
        }
    }

    /// That something could not be read or written weighs more than what was found.
    fn worsen(&mut self, exit: Exit) {
        if self.exit == Exit::Done || exit == Exit::Trouble {
            self.exit = exit;
        }
    }

    /// Of a folder it is said at the end how many files were checked, and what was passed over.
    fn end(mut self) -> Exit {
        if self.of_folder && !self.command.json {
            let sum = match (self.sound, self.wrong) {
                (sound, 0) => format!("{} checked: nothing to report\n", counted(sound, "file")),
                (sound, wrong) => {
                    let all = counted(sound + wrong, "file");
                    format!("{all} checked: findings in {wrong}, nothing to report in {sound}\n")
                }
            };
            let written = self.context.write(&(sum + &self.passed_over.in_words()));
            self.worsen(written);
        }
        self.exit
    }
}
