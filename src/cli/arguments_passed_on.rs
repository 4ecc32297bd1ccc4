//! The command line of what is found again and passed on: closed runs, archives.

use std::path::PathBuf;

use clap::Args;
use jiff::civil::Date;

#[derive(Debug, Args)]
pub(super) struct Records {
    /// Part of what its people call the vehicle, or of what identifies it.
    #[arg(long, value_name = "WORDS")]
    pub(super) vehicle: Option<String>,
    /// Closed on this day or later.
    #[arg(long, value_name = "DATE")]
    pub(super) since: Option<Date>,
    /// Closed on this day or earlier.
    #[arg(long, value_name = "DATE")]
    pub(super) until: Option<Date>,
    /// Part of the procedure's title or file name.
    #[arg(long, value_name = "WORDS")]
    pub(super) procedure: Option<String>,
    /// Part of the name of a part or a material.
    #[arg(long, value_name = "WORDS")]
    pub(super) part: Option<String>,
    /// Part of the name of an instrument, or of what is written on it.
    #[arg(long, value_name = "WORDS")]
    pub(super) instrument: Option<String>,
    /// Part of what a deviation departs from, or of its reason.
    #[arg(long, value_name = "WORDS")]
    pub(super) deviation: Option<String>,
    /// Part of a person's name.
    #[arg(long, value_name = "WORDS")]
    pub(super) person: Option<String>,
    /// One JSON array, for a program to read.
    #[arg(long, conflicts_with = "csv")]
    pub(super) json: bool,
    /// A table as RFC 4180 has it, for a program to read.
    #[arg(long)]
    pub(super) csv: bool,
    /// Every reading of them, a row each, in place of a row a run.
    #[arg(long, requires = "csv")]
    pub(super) readings: bool,
}

#[derive(Debug, Args)]
#[command(
    after_help = "In the archive are the file, the procedures and pictures it links to, what those link to, and \
FORMAT.md, which teaches how to read them. The same files always give the same archive.

Example:
  bayhand share cold-reverse-stall --vehicle vehicle-example.toml --to for-sam.zip"
)]
pub(super) struct Share {
    /// The procedure, or the job.
    #[arg(value_name = "FILE")]
    pub(super) file: PathBuf,
    /// A vehicle sheet that goes with it.
    #[arg(long, value_name = "SHEET")]
    pub(super) vehicle: Option<PathBuf>,
    /// The archive to be written; one that is there is not overwritten.
    #[arg(long, value_name = "FILE.zip")]
    pub(super) to: PathBuf,
}

#[derive(Debug, Args)]
#[command(
    after_help = "Files that are equal to what is there are left alone. Where one differs, nothing at all is \
written, and the lines that differ are shown. An archive that is damaged, or leads out of the folder, is refused whole.

Example:
  bayhand receive for-sam.zip stall"
)]
pub(super) struct Receive {
    /// The archive.
    #[arg(value_name = "FILE.zip")]
    pub(super) archive: PathBuf,
    /// The folder that the files are written into; it is made where it is not there.
    #[arg(value_name = "FOLDER")]
    pub(super) folder: PathBuf,
    /// Take the files that came where others are there; those are kept beside them, as NAME.old.
    #[arg(long)]
    pub(super) replace: bool,
}
