//! What every command needs: the system, the folder of runs, a way to speak.

use std::fmt::{self, Display};
use std::io::{self, IsTerminal};
use std::path::{Path, PathBuf};

use super::Exit;
use crate::journal::{JournalError, RunId, Runs};
use crate::session::{NotOpened, NotTaken};
use crate::source::{Colour, Diagnostic, Look, SourceText, escaped, render};
use crate::system::{DiskError, System, Why};
use crate::terminal::{Door, Facts, Line, Manner, Role, Stream, Text, Wish, choose, paint};

/// The widest that text is set where nobody has said how wide it is.
const USUAL_WIDTH: usize = 80;

/// Standard output took no more.
#[derive(Debug)]
pub(super) struct NotWritten(pub(super) io::Error);

impl Display for NotWritten {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self(error) = self;
        write!(out, "could not write to standard output: {error}; what was to be shown is not all there")
    }
}

pub(super) struct Context {
    pub(super) system: System,
    data: Option<PathBuf>,
    plain: bool,
}

impl Context {
    pub(super) fn new(system: System, data: Option<PathBuf>, plain: bool) -> Self {
        Self { system, data, plain }
    }

    /// Whether linear text without drawings was asked for.
    pub(super) fn is_plain(&self) -> bool {
        self.plain
    }

    /// The runs on this machine, or why there is no place for them.
    pub(super) fn runs(&self) -> Result<Runs, Exit> {
        Ok(Runs::new(&self.system, &self.data_folder()?))
    }

    /// The folder of the runs.
    pub(super) fn data_folder(&self) -> Result<PathBuf, Exit> {
        self.system.data_folder(self.data.as_deref()).map_err(|error| self.trouble(&error))
    }

    /// How a conversation is led here.
    pub(super) fn manner(&self) -> Manner {
        let stream = |terminal: bool| if terminal { Stream::Terminal } else { Stream::Other };
        let environment = self.system.environment();
        choose(&Facts {
            stdin: stream(io::stdin().is_terminal()),
            stdout: stream(Door::output().is_terminal()),
            stderr: stream(Door::errors().is_terminal()),
            term: environment.terminal().map(str::to_owned),
            no_color: environment.variable("NO_COLOR").map(str::to_owned),
            wish: if self.plain { Wish::Plain } else { Wish::Any },
        })
    }

    /// The way in which a command that asks nothing writes to standard output.
    fn output_manner(&self) -> Manner {
        let environment = self.system.environment();
        let colour = Door::output().is_terminal() && !self.plain && environment.terminal() != Some("dumb");
        match (colour, environment.refuses_colour()) {
            (false, _) => Manner::Lines,
            (true, true) => Manner::Mono,
            (true, false) => Manner::Colour,
        }
    }

    /// Whether somebody looks on who wants to see how far something is.
    pub(super) fn shows_progress(&self) -> bool {
        let is_dumb = self.system.environment().terminal() == Some("dumb");
        Door::errors().is_terminal() && !self.plain && !is_dumb
    }

    pub(super) fn width(&self) -> usize {
        Door::output().columns().or(self.system.environment().columns()).unwrap_or(USUAL_WIDTH).clamp(20, 120)
    }

    /// Writes styled text to standard output.
    pub(super) fn show(&self, text: &Text) -> Exit {
        let manner = self.output_manner();
        let dressed = Door::output().dressed(manner != Manner::Lines);
        self.written(dressed.let_out(&paint(text, self.width(), manner)))
    }

    /// Writes text to standard output.
    pub(super) fn write(&self, text: &str) -> Exit {
        self.written(Door::output().let_out(text))
    }

    /// Writes JSON to standard output: what a terminal would obey stands in it as `\u....`, so that nothing of the data is
    /// lost.
    pub(super) fn write_json(&self, json: &str) -> Exit {
        self.write(&escaped(json))
    }

    /// That the reader went away is no mistake; that nothing could be written is one.
    fn written(&self, outcome: io::Result<()>) -> Exit {
        match outcome {
            Ok(()) => Exit::Done,
            Err(error) if error.kind() == io::ErrorKind::BrokenPipe => Exit::Done,
            Err(error) => self.not_written(error),
        }
    }

    /// Says that what is said cannot be written.
    pub(super) fn not_written(&self, error: io::Error) -> Exit {
        self.trouble(&NotWritten(error))
    }

    /// Writes text to a file that is not there yet; where none is named, to standard output.
    pub(super) fn write_to(&self, file: Option<&Path>, text: &str) -> Exit {
        let Some(path) = file else { return self.write(text) };
        match self.system.disk().write_new(path, text.as_bytes()) {
            Ok(()) => Exit::Done,
            Err(error) => self.trouble(&error),
        }
    }

    /// Says on standard error what cannot be done.
    pub(super) fn complain(&self, what: &dyn Display) {
        let text = Line::new().with(Role::Strong, "bayhand: ").with(Role::Plain, what.to_string()).hang(2);
        self.tell(&text.into());
    }

    /// Says something on standard error.
    pub(super) fn tell(&self, text: &Text) {
        let manner = if Door::errors().is_terminal() { self.output_manner() } else { Manner::Lines };
        let dressed = Door::errors().dressed(manner != Manner::Lines);
        let _ = dressed.let_out(&paint(text, self.width(), manner));
    }

    /// Says that what is shown could not be kept as well.
    pub(super) fn not_kept(&self, error: &DiskError) {
        let way_out = error.way_out();
        self.complain(&format!(
            "the record is not kept beside its journal: {error}; {way_out}; it can be made anew at any time"
        ));
    }

    /// Says that something could not be read or kept.
    pub(super) fn trouble(&self, what: &dyn Display) -> Exit {
        self.complain(what);
        Exit::Trouble
    }

    /// Says that something was found that stands in the way.
    pub(super) fn found(&self, what: &dyn Display) -> Exit {
        self.complain(what);
        Exit::Found
    }

    /// Says what is wrong with a journal.
    pub(super) fn journal_error(&self, error: &JournalError) -> Exit {
        self.complain(error);
        if matches!(error, JournalError::InUse { .. }) { Exit::Busy } else { Exit::Trouble }
    }

    /// Says why a run cannot be opened.
    pub(super) fn not_opened(&self, error: &NotOpened) -> Exit {
        match error {
            NotOpened::Journal(error) => self.journal_error(error),
            other => self.trouble(other),
        }
    }

    /// Says why an answer was not taken.
    pub(super) fn not_taken(&self, error: &NotTaken) -> Exit {
        match error {
            NotTaken::Refused(refusal) => self.found(refusal),
            NotTaken::NotKept(error) => self.journal_error(error),
        }
    }

    /// Reads a text file that a person named.
    pub(super) fn read(&self, path: &Path) -> Result<SourceText, Exit> {
        self.read_text(path).map_err(|error| self.trouble(&error))
    }

    /// Reads a text file.
    pub(super) fn read_text(&self, path: &Path) -> Result<SourceText, DiskError> {
        /// Far beyond any procedure that a person could follow.
        const MOST: u64 = 8 << 20;
        match self.system.disk().read_text(path, MOST) {
            Ok(text) => Ok(SourceText::new(path.display().to_string(), text)),
            // Where no such file is, the name may be one of those inside the program.
            Err(error) if matches!(error.why, Why::NotThere) => super::library_files::find(path).ok_or(error),
            Err(error) => Err(error),
        }
    }

    /// Shows diagnostics on standard error.
    pub(super) fn diagnose(&self, diagnostics: &[Diagnostic], text: &SourceText) {
        let _ = Door::errors().dressed(self.is_coloured()).let_out(&self.diagnosed(diagnostics, text));
    }

    fn is_coloured(&self) -> bool {
        self.output_manner() == Manner::Colour
    }

    /// Says on standard error what is set already.
    #[expect(clippy::unused_self, reason = "one of the ways out, beside `tell`")]
    pub(super) fn say_plainly(&self, text: &str) {
        let _ = Door::errors().let_out(text);
    }

    /// Writes help to standard output, with its attributes where they are wanted.
    pub(super) fn write_help(&self, plain: &str, styled: &str) -> Exit {
        if self.is_coloured() { self.write_diagnosed(styled) } else { self.write(plain) }
    }

    /// Writes diagnostics to standard output.
    pub(super) fn write_diagnosed(&self, text: &str) -> Exit {
        self.written(Door::output().dressed(self.is_coloured()).let_out(text))
    }

    /// Diagnostics as a person reads them.
    pub(super) fn diagnosed(&self, diagnostics: &[Diagnostic], text: &SourceText) -> String {
        let colour = if self.is_coloured() { Colour::Ansi } else { Colour::Plain };
        render(diagnostics, text, Look { colour, width: self.width() })
    }

    /// The run that a person named, or the only one there is to mean.
    pub(super) fn named_run(&self, runs: &Runs, name: Option<&str>) -> Result<RunId, Exit> {
        if let Some(name) = name {
            return RunId::parse(name).map_err(|error| self.journal_error(&error));
        }
        let folders = runs.folders().map_err(|error| self.journal_error(&error))?;
        match &folders[..] {
            [only] => RunId::parse(only).map_err(|error| self.journal_error(&error)),
            [] => Err(self.found(&"there is no run yet; `bayhand run FILE` begins one")),
            many => Err(self.found(&format!("there are several runs; name one of: {}", listed(many)))),
        }
    }
}

/// The newest of them, and how many more there are.
fn listed(names: &[String]) -> String {
    const MOST: usize = 20;
    let newest = names.iter().rev().take(MOST).cloned().collect::<Vec<_>>().join(", ");
    match names.len().saturating_sub(MOST) {
        0 => newest,
        more => format!("{newest}, and {more} older ones; `bayhand runs` lists all"),
    }
}
