//! The path of a file that is passed on: safe on every system, whoever wrote it.

use std::fmt;

use crate::source::clean;

/// A path with `/` between the folders, that stays below the folder it is put into.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct SharedPath(String);

/// Why a path is none that files are passed on under.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PathProblem {
    /// Nothing, or a folder alone.
    Empty,
    /// It begins at the top of a disk.
    Absolute,
    /// It leads out of its folder, or through folders that are none: `..`, `.`, `//`.
    Wandering,
    /// It has a letter that does not stand in names on every system.
    Letter(char),
    /// A name in it ends in a full stop or a space, which some systems take off.
    End,
    /// It is longer than some systems allow.
    Long,
}

impl SharedPath {
    /// The longest, in bytes.
    const LONGEST: usize = 200;

    /// Reads a path.
    ///
    /// ```
    /// use bayhand::share::{PathProblem, SharedPath};
    ///
    /// assert_eq!(SharedPath::parse("lines/flush.md").unwrap().as_str(), "lines/flush.md");
    /// assert_eq!(SharedPath::parse("../flush.md"), Err(PathProblem::Wandering));
    /// ```
    pub fn parse(path: &str) -> Result<Self, PathProblem> {
        if path.is_empty() {
            return Err(PathProblem::Empty);
        }
        if path.starts_with('/') {
            return Err(PathProblem::Absolute);
        }
        if let Some(letter) = path.chars().find(|letter| is_foreign(*letter)) {
            return Err(PathProblem::Letter(letter));
        }
        if path.len() > Self::LONGEST {
            return Err(PathProblem::Long);
        }
        for name in path.split('/') {
            if matches!(name, "" | "." | "..") {
                return Err(PathProblem::Wandering);
            }
            if name.ends_with(['.', ' ']) {
                return Err(PathProblem::End);
            }
        }
        Ok(Self(path.to_owned()))
    }

    /// The path, `/` between the folders.
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// The names of which it is made, the folders first.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.0.split('/')
    }

    /// The same path on a disk that does not tell large letters from small ones.
    pub(super) fn folded(&self) -> String {
        self.0.to_lowercase()
    }
}

/// A control or unseen character, or one that has a meaning in paths on some system.
fn is_foreign(letter: char) -> bool {
    let mut text = [0; 4];
    let shown = clean(letter.encode_utf8(&mut text));
    matches!(letter, '\n' | '\t' | '\\' | ':' | '*' | '?' | '"' | '<' | '>' | '|' | '\u{fffd}')
        || !shown.starts_with(letter)
}

impl fmt::Display for SharedPath {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.0)
    }
}

impl fmt::Display for PathProblem {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => out.write_str("it names no file"),
            Self::Absolute => out.write_str("it begins at the top of a disk"),
            Self::Wandering => out.write_str("it leads out of its folder, or through folders that are none"),
            Self::Letter(letter) => {
                write!(out, "{} stands in it, and that is no letter for a name", letter.escape_default())
            }
            Self::End => out.write_str("a name in it ends in a full stop or a space"),
            Self::Long => write!(out, "it is longer than {} bytes", SharedPath::LONGEST),
        }
    }
}
