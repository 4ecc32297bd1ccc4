//! Which folder runs are kept in.

use std::fmt;
use std::path::{Path, PathBuf};

use super::Environment;

/// Neither a path given, nor `BAYHAND_DATA`, nor a folder of the platform's own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoDataFolder;

impl fmt::Display for NoDataFolder {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(
            "there is no folder to keep runs in: this account has no home folder. \
             Name one in the environment: BAYHAND_DATA=/path/to/folder",
        )
    }
}

impl std::error::Error for NoDataFolder {}

/// The folder that runs are kept in: the one given, else `BAYHAND_DATA`, else the platform's own.
pub(super) fn choose(given: Option<&Path>, environment: &Environment) -> Result<PathBuf, NoDataFolder> {
    given
        .or_else(|| environment.named_data_folder())
        .or_else(|| environment.own_data_folder())
        .map(Path::to_path_buf)
        .ok_or(NoDataFolder)
}
