//! The signatures that lie beside a record.

use std::path::{Path, PathBuf};

use super::beside::Fault;
use crate::journal::read_time;
use crate::record::model::Record;
use crate::signature::{Allowed, Manifest, Meaning, Signed, Unfit};
use crate::system::{DiskError, System};

/// How the name of a signature file ends.
pub(super) const SIGNATURE: &str = "signature";
/// How the name of a file ends that holds what is signed, where the signature is in a file of its own.
pub(super) const MANIFEST: &str = "manifest";
/// What `ssh-keygen -Y sign` calls that file: the name of the other, and this.
const APART: &str = "manifest.sig";
/// No signature is longer.
const MOST: u64 = 64 << 10;

/// A signature that belongs to its record, and whose it is.
#[derive(Clone, Debug)]
pub(super) struct Standing {
    pub(super) signed: Signed,
    /// Who has this key, where that was looked at.
    pub(super) principals: Option<String>,
}

/// `record.performed.robin-vale.signature`, beside `record.json`.
pub(super) fn file_of(record: &Path, manifest: &Manifest, ending: &str) -> PathBuf {
    let lower = manifest.name.to_lowercase();
    let words: Vec<&str> =
        lower.split(|letter: char| !letter.is_alphanumeric()).filter(|word| !word.is_empty()).collect();
    let who: String = words.join("-").chars().take(60).collect();
    record.with_file_name(format!("{}.{}.{who}.{ending}", stem(record), manifest.meaning))
}

fn stem(record: &Path) -> String {
    record.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default()
}

/// Every signature beside a record, held against it and against who may sign.
pub(super) fn standings(
    system: &System,
    path: &Path,
    record: &Record,
    allowed: Option<&Allowed>,
) -> Result<Vec<Standing>, Vec<Fault>> {
    let (mut standings, mut faults) = (Vec::new(), Vec::new());
    for file in files(system, path) {
        match standing(system, &file, record, allowed) {
            Ok(standing) => standings.push(standing),
            Err(error) => faults.push(Fault::of(&file, error)),
        }
    }
    if standings.is_empty() && faults.is_empty() && allowed.is_some() {
        faults.push(Fault::of(path, "it is not signed: no signature lies beside it"));
    }
    if faults.is_empty() { Ok(standings) } else { Err(faults) }
}

/// The signature files of this record, by their names.
fn files(system: &System, record: &Path) -> Vec<PathBuf> {
    let folder = record.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let start = format!("{}.", stem(record));
    let is_one = |name: &str| {
        let parts = name.strip_prefix(&start).and_then(|rest| rest.split_once('.'));
        let Some((meaning, rest)) = parts else { return false };
        let ending = rest.split_once('.').map(|(_who, ending)| ending);
        Meaning::ALL.iter().any(|one| one.word() == meaning)
            && ending.is_some_and(|end| [SIGNATURE, APART].contains(&end))
    };
    let names = system.disk().list(folder).unwrap_or_default().into_iter().map(|entry| entry.name);
    names.filter(|name| is_one(name)).map(|name| folder.join(name)).collect()
}

fn standing(
    system: &System,
    file: &Path,
    record: &Record,
    allowed: Option<&Allowed>,
) -> Result<Standing, Unfit> {
    let read = |path: &Path| {
        system.disk().read_text(path, MOST).map_err(|error: DiskError| Unfit::because(error.to_string()))
    };
    let text = read(file)?;
    let signed = if file.extension().is_some_and(|ending| ending == "sig") {
        Signed::of(&read(&file.with_extension(""))?, &text)?
    } else {
        Signed::parse(&text)?
    };
    signed.is_on(record)?;
    let principals = allowed.map(|allowed| {
        let at = read_time(&signed.manifest.time).map_err(|error| Unfit::because(error.to_string()))?;
        allowed.signer(&signed.signature.key, &at).map(|signer| signer.principals.clone())
    });
    Ok(Standing { principals: principals.transpose()?, signed })
}
