//! What somebody signs: who, when, what is meant by it, and which record.

use std::fmt;

use serde::{Deserialize, Serialize};

use super::{NAMESPACE, SshSig, Unfit};
use crate::journal::read_time;
use crate::record::canonical;
use crate::record::model::Record;
use crate::source::clean;

/// What is meant by a signature.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Meaning {
    /// I did this work.
    Performed,
    /// I looked at this work.
    Verified,
    /// The vehicle may be used.
    Released,
}

impl Meaning {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Performed, Self::Verified, Self::Released];

    /// The word.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Performed => "performed",
            Self::Verified => "verified",
            Self::Released => "released",
        }
    }
}

impl fmt::Display for Meaning {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(self.word())
    }
}

/// What is signed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Manifest {
    /// The version of this format.
    pub format: u32,
    /// The printed name.
    pub name: String,
    /// What is meant.
    pub meaning: Meaning,
    /// When, as the signer's clock said: RFC 3339.
    pub time: String,
    /// The run.
    pub run: String,
    /// How it came out, in the words of the record.
    pub result: String,
    /// The seal of the record: it binds all of it.
    pub seal: String,
}

impl Manifest {
    /// What somebody signs on a record. The name is printed wherever the signature is told of.
    pub fn of(record: &Record, name: &str, meaning: Meaning, time: String) -> Result<Self, Unfit> {
        let name = name.trim();
        if name.is_empty() || name.chars().count() > 200 || clean(name) != name || name.contains('\n') {
            return Err(Unfit::because("the name must be one line of up to 200 letters that can be printed"));
        }
        if meaning == Meaning::Released && record.closed.is_none() {
            return Err(Unfit::because("this run is not closed: nothing can be released by it"));
        }
        Ok(Self {
            format: 1,
            name: name.to_owned(),
            meaning,
            time,
            run: record.run.clone(),
            result: record.result.clone(),
            seal: record.seal.sha256.clone(),
        })
    }

    /// The line that is signed, newline included: canonical JSON.
    pub fn line(&self) -> Result<String, Unfit> {
        let bytes = canonical(self).map_err(|error| Unfit::because(error.to_string()))?;
        String::from_utf8(bytes).map(|line| line + "\n").map_err(|error| Unfit::because(error.to_string()))
    }

    /// Reads the line, and takes nothing but what [`Self::line`] writes.
    pub fn parse(line: &str) -> Result<Self, Unfit> {
        let manifest: Self = serde_json::from_str(line)
            .map_err(|error| Unfit::because(format!("what is signed cannot be read: {error}")))?;
        if manifest.format != 1 {
            return Err(Unfit::because(format!(
                "what is signed has format {}, and this bayhand reads 1",
                manifest.format
            )));
        }
        if manifest.line()? != line {
            return Err(Unfit::because("what is signed is not in its canonical form"));
        }
        read_time(&manifest.time).map_err(|error| Unfit::because(error.to_string()))?;
        Ok(manifest)
    }
}

/// A manifest and the signature on it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Signed {
    /// What is signed.
    pub manifest: Manifest,
    /// By which key.
    pub signature: SshSig,
}

impl Signed {
    /// Reads a signature file: the manifest's line, and below it the signature.
    pub fn parse(text: &str) -> Result<Self, Unfit> {
        let (line, armour) =
            text.split_once('\n').ok_or_else(|| Unfit::because("this is not a signature file of bayhand"))?;
        Self::of(&format!("{line}\n"), armour)
    }

    /// The same where the two lie in files of their own, as `ssh-keygen -Y sign` leaves them. The signature is checked.
    pub fn of(line: &str, armour: &str) -> Result<Self, Unfit> {
        let signature = SshSig::parse(armour)?;
        signature.verify(NAMESPACE, line.as_bytes())?;
        Ok(Self { manifest: Manifest::parse(line)?, signature })
    }

    /// The signature file.
    pub fn text(&self) -> Result<String, Unfit> {
        Ok(self.manifest.line()? + &self.signature.armoured())
    }

    /// Whether it stands on this record.
    pub fn is_on(&self, record: &Record) -> Result<(), Unfit> {
        let Manifest { seal, run, result, .. } = &self.manifest;
        if *seal != record.seal.sha256 {
            return Err(Unfit::because(format!(
                "it belongs to another record: that of run {run} with the seal {seal}"
            )));
        }
        if *run != record.run || *result != record.result {
            return Err(Unfit::because("it names another run or result than the record with this seal"));
        }
        Ok(())
    }
}
