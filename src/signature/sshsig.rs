//! The signature itself: PROTOCOL.sshsig of OpenSSH, version 1.

use sha2::{Digest, Sha256, Sha512};

use super::wire::{Reader, put};
use super::{PublicKey, Unfit, armour};

const MAGIC: &[u8] = b"SSHSIG";
const ARMOUR: &str = "SSH SIGNATURE";
const VERSION: u32 = 1;

/// A signature with the key that it is by.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SshSig {
    /// The key.
    pub key: PublicKey,
    namespace: String,
    hash: Hash,
    signature: Vec<u8>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Hash {
    Sha256,
    Sha512,
}

impl Hash {
    const fn name(self) -> &'static str {
        match self {
            Self::Sha256 => "sha256",
            Self::Sha512 => "sha512",
        }
    }

    fn of(self, message: &[u8]) -> Vec<u8> {
        match self {
            Self::Sha256 => Sha256::digest(message).to_vec(),
            Self::Sha512 => Sha512::digest(message).to_vec(),
        }
    }
}

/// The bytes that a key signs for a message, hashed by SHA-512 as OpenSSH does it.
pub fn signed_data(namespace: &str, message: &[u8]) -> Vec<u8> {
    data(Hash::Sha512, namespace, message)
}

fn data(hash: Hash, namespace: &str, message: &[u8]) -> Vec<u8> {
    let mut out = MAGIC.to_vec();
    for part in [namespace.as_bytes(), b"", hash.name().as_bytes(), &hash.of(message)] {
        put(&mut out, part);
    }
    out
}

impl SshSig {
    pub(super) fn ed25519(key: PublicKey, namespace: &str, bytes: &[u8]) -> Self {
        let mut signature = Vec::new();
        put(&mut signature, b"ssh-ed25519");
        put(&mut signature, bytes);
        Self { key, namespace: namespace.to_owned(), hash: Hash::Sha512, signature }
    }

    /// Reads one as `ssh-keygen -Y sign` writes it.
    pub fn parse(text: &str) -> Result<Self, Unfit> {
        let bytes = armour::bare(ARMOUR, text)?;
        let mut reader = Reader::of(&bytes);
        if reader.take(MAGIC.len())? != MAGIC {
            return Err(Unfit::because("this is not a signature of OpenSSH"));
        }
        let version = reader.number()?;
        if version != VERSION {
            return Err(Unfit::because(format!(
                "its version is {version}, and this bayhand reads {VERSION}"
            )));
        }
        let key = PublicKey::of_blob(reader.string()?)?;
        let namespace = reader.text()?.to_owned();
        let _reserved = reader.string()?;
        let hash = match reader.text()? {
            "sha256" => Hash::Sha256,
            "sha512" => Hash::Sha512,
            other => return Err(Unfit::because(format!("its hash `{other}` is not known"))),
        };
        let signature = reader.string()?.to_vec();
        reader.end()?;
        Ok(Self { key, namespace, hash, signature })
    }

    /// The same as text.
    pub fn armoured(&self) -> String {
        let mut out = MAGIC.to_vec();
        out.extend(VERSION.to_be_bytes());
        for part in
            [&self.key.blob[..], self.namespace.as_bytes(), b"", self.hash.name().as_bytes(), &self.signature]
        {
            put(&mut out, part);
        }
        armour::armoured(ARMOUR, &out)
    }

    /// Whether its key signed this message for this purpose.
    pub fn verify(&self, namespace: &str, message: &[u8]) -> Result<(), Unfit> {
        if self.namespace != namespace {
            return Err(Unfit::because(format!(
                "it was made for `{}`, and one on a record is for `{namespace}`",
                self.namespace
            )));
        }
        self.key.verifies(&data(self.hash, namespace, message), &self.signature)
    }
}

/// What the agent is asked: to sign this message with this key.
pub fn agent_request(key: &PublicKey, namespace: &str, message: &[u8]) -> Vec<u8> {
    const SIGN_REQUEST: u8 = 13;
    let mut out = vec![SIGN_REQUEST];
    put(&mut out, &key.blob);
    put(&mut out, &signed_data(namespace, message));
    out.extend(0_u32.to_be_bytes());
    out
}

/// The signature in what the agent answered.
pub fn agent_signature(key: PublicKey, namespace: &str, answer: &[u8]) -> Result<SshSig, Unfit> {
    const SIGN_RESPONSE: u8 = 14;
    let mut reader = Reader::of(answer);
    if reader.take(1)? != [SIGN_RESPONSE] {
        return Err(Unfit::because(
            "the agent does not have this key, or does not sign with it; `ssh-add` puts it in",
        ));
    }
    let signature = reader.string()?.to_vec();
    Ok(SshSig { key, namespace: namespace.to_owned(), hash: Hash::Sha512, signature })
}
