//! Private keys in OpenSSH's own file format (PROTOCOL.key), open or locked with a passphrase.

use std::fmt;

use aes::Aes256;
use ctr::cipher::{KeyIvInit, StreamCipher};

use super::wire::Reader;
use super::{PublicKey, SshSig, Unfit, armour};

const MAGIC: &[u8] = b"openssh-key-v1\0";
const ARMOUR: &str = "OPENSSH PRIVATE KEY";
/// More rounds than this would take minutes; OpenSSH's own number is 16 or 24.
const MOST_ROUNDS: u32 = 2000;

/// An open private key.
pub struct PrivateKey {
    pair: ed25519_compact::KeyPair,
}

/// A key file that was read, perhaps locked.
pub struct Locked {
    /// Its public key.
    pub public: PublicKey,
    lock: Option<Lock>,
    inside: Vec<u8>,
}

struct Lock {
    salt: Vec<u8>,
    rounds: u32,
}

impl Locked {
    /// Reads a key file.
    pub fn parse(text: &str) -> Result<Self, Unfit> {
        let bytes = armour::bare(ARMOUR, text)?;
        let mut reader = Reader::of(&bytes);
        if reader.take(MAGIC.len())? != MAGIC {
            return Err(Unfit::because("this is not a private key of OpenSSH"));
        }
        let (cipher, kdf) = (reader.text()?, reader.text()?);
        let lock = lock(cipher, kdf, reader.string()?)?;
        if reader.number()? != 1 {
            return Err(Unfit::because("there is more than one key in this file"));
        }
        let public = PublicKey::of_blob(reader.string()?)?;
        let inside = reader.string()?.to_vec();
        reader.end()?;
        Ok(Self { public, lock, inside })
    }

    /// Whether a passphrase has to be asked for.
    pub fn is_locked(&self) -> bool {
        self.lock.is_some()
    }

    /// Opens it; the passphrase of one that is not locked does not matter.
    pub fn open(&self, passphrase: &str) -> Result<PrivateKey, Unfit> {
        let mut inside = self.inside.clone();
        if let Some(lock) = &self.lock {
            let mut made = [0; 48];
            bcrypt_pbkdf::bcrypt_pbkdf(passphrase, &lock.salt, lock.rounds, &mut made)
                .map_err(|_| Unfit::because("no key can be made of this passphrase"))?;
            let (key, start) = made.split_at(32);
            let cipher = ctr::Ctr128BE::<Aes256>::new_from_slices(key, start);
            cipher.map_err(|_| Unfit::because("its cipher cannot be used"))?.apply_keystream(&mut inside);
        }
        let mut reader = Reader::of(&inside);
        if reader.number()? != reader.number()? {
            return Err(Unfit::because("the passphrase is not the one of this key"));
        }
        let _kind = reader.text()?;
        let public: [u8; 32] = reader.exactly()?;
        let secret: [u8; 64] = reader.exactly()?;
        let _comment = reader.string()?;
        let is_padding = reader.rest().iter().zip(1_u8..).all(|(byte, count)| *byte == count);
        let pair = of_seed(&secret);
        let pair = pair.filter(|pair| {
            // A secret beside another public key would sign what nobody can verify, and give itself away by it.
            *pair.sk == secret
                && is_padding
                && *pair.pk == public
                && PublicKey::ed25519(public) == self.public
        });
        pair.map(|pair| PrivateKey { pair })
            .ok_or_else(|| Unfit::because("its two halves do not belong together"))
    }
}

/// The pair that the secret half makes: it begins with the seed of both.
fn of_seed(secret: &[u8; 64]) -> Option<ed25519_compact::KeyPair> {
    let seed = ed25519_compact::Seed::from_slice(secret.get(..ed25519_compact::Seed::BYTES)?).ok()?;
    Some(ed25519_compact::KeyPair::from_seed(seed))
}

fn lock(cipher: &str, kdf: &str, options: &[u8]) -> Result<Option<Lock>, Unfit> {
    match (cipher, kdf) {
        ("none", "none") => Ok(None),
        ("aes256-ctr", "bcrypt") => {
            let mut reader = Reader::of(options);
            let (salt, rounds) = (reader.string()?.to_vec(), reader.number()?);
            if rounds > MOST_ROUNDS {
                return Err(Unfit::because(format!(
                    "its lock asks for {rounds} rounds; {MOST_ROUNDS} are taken at most"
                )));
            }
            Ok(Some(Lock { salt, rounds }))
        }
        _ => Err(Unfit::because(format!(
            "it is locked with `{cipher}`; lock it anew with `ssh-keygen -p -Z aes256-ctr`, or put it into the agent with \
             `ssh-add` and name its `.pub` file"
        ))),
    }
}

impl PrivateKey {
    /// Signs a message.
    pub fn sign(&self, namespace: &str, message: &[u8]) -> SshSig {
        let key = PublicKey::ed25519(*self.pair.pk);
        let signature = self.pair.sk.sign(super::signed_data(namespace, message), None);
        SshSig::ed25519(key, namespace, &signature[..])
    }
}

impl fmt::Debug for PrivateKey {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str("PrivateKey")
    }
}

impl fmt::Debug for Locked {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "Locked({})", self.public)
    }
}
