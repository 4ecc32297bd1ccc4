//! The command line of records: printed, verified, signed, and what falls due.

use std::path::PathBuf;

use clap::Args;

use crate::record::Hidden;
use crate::signature::Meaning;

#[derive(Debug, Args)]
pub(super) struct Record {
    /// The name of the run, or a job: then what all its runs came to. Not needed when there is only one run.
    #[arg(value_name = "RUN or JOB")]
    pub(super) run: Option<String>,
    #[command(flatten)]
    pub(super) form: RecordForm,
    /// Hide the people's names, the vehicle's identity, or both: `names,vehicle`. The copy verifies like any record.
    #[arg(long, value_name = "WHAT", value_delimiter = ',', value_parser = hidden, requires = "to")]
    pub(super) redact: Vec<Hidden>,
    /// Hide these words as well, wherever they stand: somebody who took no part in the run, a number plate.
    #[arg(long, value_name = "WORDS", requires = "redact")]
    pub(super) hide: Vec<String>,
    /// Write it to this file; one that is there is not overwritten.
    #[arg(long, value_name = "FILE")]
    pub(super) to: Option<PathBuf>,
}

/// The form of a record; text where none is named.
#[derive(Debug, Args)]
#[expect(clippy::struct_excessive_bools, reason = "options of the command line, one of them at most")]
#[group(multiple = false)]
pub(super) struct RecordForm {
    /// The record as data: the sealed JSON.
    #[arg(long)]
    pub(super) json: bool,
    /// One web page that needs nothing else: drawings, no script; prints on A4 and Letter.
    #[arg(long)]
    pub(super) html: bool,
    /// Markdown, with tables.
    #[arg(long)]
    pub(super) markdown: bool,
    /// The readings as rows: CSV with commas, one attempt a row.
    #[arg(long)]
    pub(super) csv: bool,
    /// The JSON Schema of the record as data; no run is needed.
    #[arg(long)]
    pub(super) schema: bool,
}

#[derive(Debug, Args)]
pub(super) struct Verify {
    /// Records (`record.json`), folders of runs, or names of runs. Nothing else is needed.
    #[arg(required = true, value_name = "FILE or FOLDER")]
    pub(super) what: Vec<PathBuf>,
    /// Who may sign, in the form of OpenSSH: then a signature must lie beside it, and each be of one of these.
    #[arg(long, value_name = "FILE")]
    pub(super) allowed_signers: Option<PathBuf>,
}

#[derive(Debug, Args)]
#[command(
    after_help = "A key in hardware signs by ssh-keygen: `--manifest` writes what is to be signed, and says how."
)]
pub(super) struct Sign {
    /// The record, the folder of its run, or the name of the run. It is verified first.
    #[arg(value_name = "RECORD")]
    pub(super) record: PathBuf,
    /// An Ed25519 key file of OpenSSH; of a key that the agent holds, its `.pub` file.
    #[arg(long, value_name = "FILE", required_unless_present = "manifest", conflicts_with = "manifest")]
    pub(super) key: Option<PathBuf>,
    /// Only write what is to be signed.
    #[arg(long)]
    pub(super) manifest: bool,
    /// Your name, as it is to be printed.
    #[arg(long, value_name = "NAME")]
    pub(super) name: String,
    /// performed: I did it; verified: I looked at it; released: the vehicle may be used.
    #[arg(long, value_name = "MEANING", value_parser = meaning)]
    pub(super) meaning: Meaning,
}

#[derive(Debug, Args)]
pub(super) struct Dates {
    /// A job, or the name of a run. Not needed when there is only one run.
    #[arg(value_name = "JOB or RUN")]
    pub(super) what: Option<String>,
    /// Write those that have a day into this calendar file (iCalendar).
    #[arg(long, value_name = "FILE.ics")]
    pub(super) to: Option<PathBuf>,
}

fn hidden(text: &str) -> Result<Hidden, String> {
    let found = Hidden::ALL.into_iter().find(|hidden| hidden.word() == text.trim());
    found.ok_or_else(|| format!("`{text}` cannot be hidden; names and vehicle can"))
}

fn meaning(text: &str) -> Result<Meaning, String> {
    let found = Meaning::ALL.into_iter().find(|meaning| meaning.word() == text);
    found.ok_or_else(|| format!("`{text}` is none of performed, verified, released"))
}
