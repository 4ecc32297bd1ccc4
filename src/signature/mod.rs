//! Signatures on records, in OpenSSH's own form (SSHSIG), so that keys which people have already serve, and `ssh-keygen`
//! can check them without bayhand.
//!
//! What is signed is a [`Manifest`]: one line of canonical JSON with the printed name, the time, the meaning and the seal of
//! the record. A signature file is that line and, below it, the signature as `ssh-keygen -Y sign` writes it; so
//!
//! ```text
//! head -n 1 FILE > line; tail -n +2 FILE > line.sig
//! ssh-keygen -Y verify -f allowed_signers -I PRINCIPAL -n bayhand-record-v1 -s line.sig < line
//! ```
//!
//! Keys are Ed25519, in a file, in the agent, or in hardware (`sk-ssh-ed25519`): others are refused in words.
//! A signature has no time of its own: the time is what the signer said, and the validity of a key is judged by it.

mod allowed;
mod armour;
mod key;
mod manifest;
mod pattern;
mod private_key;
mod sshsig;
mod unfit;
mod wire;

pub use allowed::{Allowed, Signer};
pub use key::PublicKey;
pub use manifest::{Manifest, Meaning, Signed};
pub use private_key::{Locked, PrivateKey};
pub use sshsig::{SshSig, agent_request, agent_signature, signed_data};
pub use unfit::Unfit;

/// What signatures on records are for: one for something else does not count here. It carries the version of the manifest.
pub const NAMESPACE: &str = "bayhand-record-v1";
