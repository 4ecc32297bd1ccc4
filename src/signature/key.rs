//! Public keys as OpenSSH writes them.

use std::fmt;

use sha2::{Digest, Sha256};

use super::wire::{Reader, put};
use super::{Unfit, armour};
use crate::source::base64;

const PLAIN: &str = "ssh-ed25519";
const HARDWARE: &str = "sk-ssh-ed25519@openssh.com";

/// A public key: Ed25519, in a file or in hardware.
#[derive(Clone, PartialEq, Eq)]
pub struct PublicKey {
    pub(super) blob: Vec<u8>,
    bytes: [u8; 32],
    /// The application that a key in hardware belongs to.
    application: Option<Vec<u8>>,
}

impl PublicKey {
    pub(super) fn ed25519(bytes: [u8; 32]) -> Self {
        let mut blob = Vec::new();
        put(&mut blob, PLAIN.as_bytes());
        put(&mut blob, &bytes);
        Self { blob, bytes, application: None }
    }

    pub(super) fn of_blob(blob: &[u8]) -> Result<Self, Unfit> {
        let mut reader = Reader::of(blob);
        let kind = reader.text()?;
        if kind != PLAIN && kind != HARDWARE {
            return Err(Unfit::because(format!(
                "its key is `{kind}`; bayhand takes {PLAIN} and {HARDWARE}, and `ssh-keygen -Y verify` takes the others"
            )));
        }
        let bytes = reader.exactly()?;
        let application = if kind == HARDWARE { Some(reader.string()?.to_vec()) } else { None };
        reader.end()?;
        Ok(Self { blob: blob.to_vec(), bytes, application })
    }

    /// Reads a line `ssh-ed25519 AAAA... comment`, as it stands in a `.pub` file.
    pub fn parse(text: &str) -> Result<Self, Unfit> {
        let base64 =
            text.split_whitespace().nth(1).ok_or_else(|| Unfit::because("this is not a public key"))?;
        Self::of_blob(&armour::decode(base64)?)
    }

    /// Whether this is a signature by this key over these bytes.
    pub(super) fn verifies(&self, data: &[u8], signature: &[u8]) -> Result<(), Unfit> {
        let mut reader = Reader::of(signature);
        let kind = reader.text()?;
        let own = if self.application.is_some() { HARDWARE } else { PLAIN };
        if kind != own {
            return Err(Unfit::because(format!("its key is `{own}`, and its signature `{kind}`")));
        }
        let bytes: [u8; 64] = reader.exactly()?;
        let data = match &self.application {
            None => data.to_vec(),
            // Hardware signs the hash of what it is for, its own flags and counter, and the hash of the message.
            Some(application) => {
                let state = reader.take(5)?;
                [&Sha256::digest(application)[..], state, &Sha256::digest(data)[..]].concat()
            }
        };
        reader.end()?;
        let key = ed25519_compact::PublicKey::new(self.bytes);
        let signature = ed25519_compact::Signature::new(bytes);
        key.verify(&data, &signature)
            .map_err(|_| Unfit::because("what it stands on was changed, or it is another's signature"))
    }
}

/// The fingerprint, as `ssh-keygen -l` shows it.
impl fmt::Display for PublicKey {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let hash = base64::encode(&Sha256::digest(&self.blob));
        write!(out, "SHA256:{}", hash.trim_end_matches('='))
    }
}

impl fmt::Debug for PublicKey {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "PublicKey({self})")
    }
}
