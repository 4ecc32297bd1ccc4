//! A data folder of its own for each test, and the program started in it.

use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Output, Stdio};

use serde_json::Value;
use tempfile::TempDir;

/// The program under test.
pub const PROGRAM: &str = env!("CARGO_BIN_EXE_bayhand");
const HERE: &str = env!("CARGO_MANIFEST_DIR");

/// A folder with files and runs that vanishes with the test.
pub struct Stage {
    folder: TempDir,
}

/// What came of a command.
pub struct Ended {
    pub code: Option<i32>,
    pub out: String,
    pub err: String,
}

impl Stage {
    /// A folder with nothing in it.
    pub fn bare() -> Self {
        Self { folder: TempDir::new().expect("a folder for the test") }
    }

    /// A folder with the small procedure of these tests and its vehicle sheet.
    pub fn with_small_procedure() -> Self {
        let stage = Self::bare();
        for name in ["bleed.md", "vehicle.toml"] {
            let text = fs::read_to_string(Path::new(HERE).join("tests/cases/session").join(name));
            stage.file(name, &text.expect("a file of the tests"));
        }
        stage
    }

    /// A folder with the flush, its example vehicle and its example answers.
    pub fn with_flush() -> Self {
        let stage = Self::bare();
        for name in ["cooler-line-flush.md", "vehicle-example.toml", "answers-example.toml"] {
            let text = fs::read_to_string(Path::new(HERE).join("procedures").join(name));
            stage.file(name, &text.expect("a file that is shipped"));
        }
        stage
    }

    /// Writes a file.
    pub fn file(&self, name: &str, text: &str) -> PathBuf {
        let path = self.path(name);
        fs::write(&path, text).expect("a file of the test");
        path
    }

    /// The text of a file.
    pub fn text(&self, name: &str) -> String {
        fs::read_to_string(self.path(name)).expect("a file of the test")
    }

    /// The path of a file.
    pub fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    /// The folder of the runs.
    pub fn data(&self) -> PathBuf {
        self.path("data")
    }

    /// A command, with nothing of the developer's surroundings in it.
    pub fn command(&self, arguments: &[&str]) -> Command {
        let mut command = Command::new(PROGRAM);
        command.args(arguments).current_dir(self.folder.path()).env_clear();
        command.env("BAYHAND_DATA", self.data()).env("TZ", "UTC").env("LANG", "C.UTF-8");
        command
    }

    /// Carries out a command with nobody to answer.
    pub fn bayhand(&self, arguments: &[&str]) -> Ended {
        self.bayhand_fed(arguments, "")
    }

    /// Carries out a command with these lines as its input.
    pub fn bayhand_fed(&self, arguments: &[&str], input: &str) -> Ended {
        let mut child = self.piped(arguments);
        // It may end before it has read everything.
        let _ = child.stdin.take().expect("its input").write_all(input.as_bytes());
        ended(child.wait_with_output().expect("it ends"))
    }

    /// Starts a command with pipes in place of a terminal.
    pub fn piped(&self, arguments: &[&str]) -> Child {
        let mut command = self.command(arguments);
        command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
        command.spawn().expect("bayhand starts")
    }

    /// The folders of the runs, by name.
    pub fn runs(&self) -> Vec<PathBuf> {
        let Ok(entries) = fs::read_dir(self.data().join("runs")) else {
            return Vec::new();
        };
        let mut runs: Vec<PathBuf> = entries.map(|entry| entry.expect("an entry").path()).collect();
        // Beside them lies what a listing remembers of those that are closed.
        runs.retain(|run| run.is_dir());
        runs.sort();
        runs
    }

    /// The folder of the only run.
    pub fn run(&self) -> PathBuf {
        let runs = self.runs();
        assert_eq!(runs.len(), 1, "one run: {runs:?}");
        runs[0].clone()
    }

    /// The only run was begun an hour ago, as its lock has it.
    pub fn began_an_hour_ago(&self) {
        let lock = fs::File::options().write(true).open(self.run().join("journal.lock")).expect("its lock");
        let then = std::time::SystemTime::now() - std::time::Duration::from_secs(3600);
        lock.set_modified(then).expect("the time of a file");
    }

    /// The name of the only run.
    pub fn run_name(&self) -> String {
        self.run().file_name().expect("a name").to_string_lossy().into_owned()
    }

    /// The journal of the only run, a line an event.
    pub fn journal_lines(&self) -> Vec<String> {
        let text = fs::read_to_string(self.run().join("journal.jsonl")).expect("a journal");
        text.lines().map(str::to_owned).collect()
    }

    /// The events of the only run.
    pub fn events(&self) -> Vec<Value> {
        self.journal_lines().iter().map(|line| event(line)).collect()
    }

    /// The kinds of the events of the only run.
    pub fn kinds(&self) -> Vec<String> {
        self.events().iter().map(kind).collect()
    }
}

fn event(line: &str) -> Value {
    let line: Value = serde_json::from_str(line).expect("a line of JSON");
    line["event"]["what"].clone()
}

/// The kind of an event.
pub fn kind(event: &Value) -> String {
    match event {
        Value::String(kind) => kind.clone(),
        other => other.as_object().and_then(|fields| fields.keys().next()).expect("an event").clone(),
    }
}

/// What came of a command.
pub fn ended(output: Output) -> Ended {
    Ended {
        code: output.status.code(),
        out: String::from_utf8(output.stdout).expect("UTF-8"),
        err: String::from_utf8(output.stderr).expect("UTF-8"),
    }
}

/// The words of a text, one space apart.
pub fn words_of(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
