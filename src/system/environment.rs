//! What the surroundings of the process say: variables and the platform's data folder.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// What the surroundings of the process say, taken once at the start.
///
/// Variables that are not valid Unicode are left out: none that bayhand reads can have a meaning then.
#[derive(Clone, Debug, Default)]
pub struct Environment {
    variables: BTreeMap<String, String>,
    own_data_folder: Option<PathBuf>,
}

impl Environment {
    /// The environment of this process.
    pub fn of_process() -> Self {
        let readable = |(name, value): (std::ffi::OsString, std::ffi::OsString)| {
            Some((name.into_string().ok()?, value.into_string().ok()?))
        };
        let dirs = directories::ProjectDirs::from("", "", "bayhand");
        Self {
            variables: std::env::vars_os().filter_map(readable).collect(),
            own_data_folder: dirs.map(|dirs| dirs.data_dir().to_path_buf()),
        }
    }

    /// A made-up environment with these variables and no data folder of its own.
    ///
    /// ```
    /// let quiet = bayhand::system::Environment::of([("NO_COLOR", "1"), ("COLUMNS", "40")]);
    /// assert!(quiet.refuses_colour());
    /// assert_eq!(quiet.columns(), Some(40));
    /// ```
    pub fn of<'a>(variables: impl IntoIterator<Item = (&'a str, &'a str)>) -> Self {
        let owned = |(name, value): (&str, &str)| (name.to_owned(), value.to_owned());
        Self { variables: variables.into_iter().map(owned).collect(), own_data_folder: None }
    }

    /// The same, with the platform's data folder for bayhand set.
    #[must_use]
    pub fn with_own_data_folder(mut self, folder: impl Into<PathBuf>) -> Self {
        self.own_data_folder = Some(folder.into());
        self
    }

    /// The value of a variable; an empty one counts as not set.
    pub fn variable(&self, name: &str) -> Option<&str> {
        self.variables.get(name).map(String::as_str).filter(|value| !value.is_empty())
    }

    /// Whether the person asked for no colour: `NO_COLOR` set to anything but nothing (no-color.org).
    pub fn refuses_colour(&self) -> bool {
        self.variable("NO_COLOR").is_some()
    }

    /// The kind of terminal, from `TERM`: `xterm-256color`, `dumb`.
    pub fn terminal(&self) -> Option<&str> {
        self.variable("TERM")
    }

    /// The width asked for with `COLUMNS`, from 1 to 10 000 characters.
    pub fn columns(&self) -> Option<usize> {
        let columns = self.variable("COLUMNS")?.trim().parse().ok()?;
        (1..=10_000).contains(&columns).then_some(columns)
    }

    /// The data folder named by `BAYHAND_DATA`.
    pub fn named_data_folder(&self) -> Option<&Path> {
        self.variable("BAYHAND_DATA").map(Path::new)
    }

    /// The folder that the platform gives to bayhand's data, if it gives one.
    pub fn own_data_folder(&self) -> Option<&Path> {
        self.own_data_folder.as_deref()
    }
}
