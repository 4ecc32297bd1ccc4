//! Records and the folders of runs, verified from what lies there alone.

use std::path::{Path, PathBuf};

use super::beside::{self, DATA, Fault, MOST};
use super::signatures::{self, Standing};
use crate::journal::{Contents, Journal, JournalError, Pinned};
use crate::record::{self, Finding, Verified};
use crate::session::Books;
use crate::signature::Allowed;
use crate::system::System;

/// The journal in the folder of a run.
const JOURNAL: &str = "journal.jsonl";

/// A record or the folder of a run of which everything was worked out again.
#[derive(Debug)]
pub struct Proved {
    pub(super) verified: Verified,
    /// How many of the kept files are not there to be looked at.
    pub(super) not_there: usize,
    /// The record; in a folder, where it is or would be.
    pub(super) path: PathBuf,
    /// Who signed it.
    pub(super) signatures: Vec<Standing>,
}

/// What a record or the folder of a run proves, or what is wrong with it, the first first. With allowed signers there must
/// be a signature, and each must be of one of them.
pub fn proved(system: &System, path: &Path, allowed: Option<&Allowed>) -> Result<Proved, Vec<Fault>> {
    proved_with(system, path, allowed, &mut Books::default())
}

/// The same of one of many.
pub fn proved_with(
    system: &System,
    path: &Path,
    allowed: Option<&Allowed>,
    books: &mut Books,
) -> Result<Proved, Vec<Fault>> {
    let mut proved = if path.file_name().is_some_and(|name| name == JOURNAL) {
        folder_proved(system, path.parent().unwrap_or(Path::new("")), books)?
    } else if system.disk().list(path).is_ok() {
        folder_proved(system, path, books)?
    } else {
        file_proved(system, path, books)?
    };
    proved.signatures = signatures::standings(system, &proved.path, &proved.verified.record, allowed)?;
    Ok(proved)
}

fn file_proved(system: &System, path: &Path, books: &mut Books) -> Result<Proved, Vec<Fault>> {
    let json = system.disk().read_text(path, MOST).map_err(|error| vec![Fault::of(path, error)])?;
    let verified = record::verified_with(&json, books).map_err(|findings| faults(path, &json, &findings))?;
    let folder = path.parent().unwrap_or(Path::new(""));
    let is_beside = beside::has_attachments(system, folder);
    let looked_at = if is_beside { &verified.attachments[..] } else { &[] };
    let faults = beside::attachment_faults(system, folder, looked_at);
    let not_there = if is_beside { 0 } else { verified.attachments.len() };
    let path = path.to_path_buf();
    if faults.is_empty() {
        Ok(Proved { verified, not_there, path, signatures: Vec::new() })
    } else {
        Err(faults)
    }
}

fn faults(path: &Path, text: &str, findings: &[Finding]) -> Vec<Fault> {
    if text.starts_with("RECORD") {
        let what =
            "this is the text of a record; what is sealed is its data, which `bayhand record --json` prints";
        return vec![Fault::of(path, what)];
    }
    findings.iter().map(|finding| Fault::of(path, finding)).collect()
}

/// The same of the folder of a run.
fn folder_proved(system: &System, folder: &Path, books: &mut Books) -> Result<Proved, Vec<Fault>> {
    let path = folder.join(JOURNAL);
    let contents = Journal::read(system, folder).map_err(|error| vec![unreadable(&path, &error)])?;
    let mut found: Vec<Fault> = Vec::new();
    found.extend(contents.torn.as_ref().map(|torn| {
        let words =
            "only its beginning is there. It was never acknowledged; going on with the run sets it aside";
        Fault::of(&path, format!("not verified at entry {}: {words}", torn.line))
    }));
    let lines = lines(&contents);
    found.extend(beside::cut_off(system, folder, lines.len()));
    let pinned = Pinned::read(system, folder).map_err(|error| vec![Fault::of(&error.path, &error)])?;
    match record::verified_run(&lines, &pinned, books) {
        Ok(verified) => {
            found.extend(record_faults(system, folder, &verified.record));
            found.extend(beside::attachment_faults(system, folder, &verified.attachments));
            let path = folder.join(DATA);
            if found.is_empty() {
                Ok(Proved { verified, not_there: 0, path, signatures: Vec::new() })
            } else {
                Err(found)
            }
        }
        Err(findings) => {
            found.extend(faults(&path, "", &findings));
            Err(found)
        }
    }
}

fn lines(contents: &Contents) -> Vec<String> {
    contents.lines.iter().map(|line| contents.line(line).to_owned()).collect()
}

fn unreadable(path: &Path, error: &JournalError) -> Fault {
    match error {
        JournalError::Damaged { line, damage, .. } => {
            Fault::of(path, format!("not verified at entry {line}: {}", damage.told(*line)))
        }
        other => Fault::of(path, other),
    }
}

/// What is wrong with the kept record itself says more than that it is another than the journal gives.
fn record_faults(system: &System, folder: &Path, record: &record::model::Record) -> Vec<Fault> {
    let path = folder.join(DATA);
    let unlike = beside::record_faults(system, folder, record);
    if !unlike.iter().any(|fault| fault.file == path) {
        return unlike;
    }
    let json = system.disk().read_text(&path, MOST).unwrap_or_default();
    let own = record::verified(&json).err().map(|findings| faults(&path, &json, &findings));
    own.into_iter().flatten().chain(unlike).collect()
}
