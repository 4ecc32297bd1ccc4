//! The digest of a text or a file: how it is worked out, written and read again.

use std::fmt;

use sha2::{Digest as _, Sha256};

/// A SHA-256 (FIPS 180-4), shown as 64 lower-case hexadecimal digits.
///
/// ```
/// let digest = bayhand::journal::Digest::of(b"abc");
/// assert!(digest.to_string().starts_with("ba7816bf"));
/// assert_eq!(bayhand::journal::Digest::parse(&digest.to_string()), Some(digest));
/// ```
#[derive(Clone, Copy, PartialEq, Eq, Hash)]
pub struct Digest([u8; 32]);

impl Digest {
    /// The digest of these bytes.
    pub fn of(bytes: &[u8]) -> Self {
        Self(Sha256::digest(bytes).into())
    }

    /// Reads what `Display` wrote; upper case, other lengths and other characters are refused.
    pub fn parse(text: &str) -> Option<Self> {
        let digits = text.as_bytes();
        if digits.len() != 64 {
            return None;
        }
        let mut bytes = [0; 32];
        for (byte, pair) in bytes.iter_mut().zip(digits.chunks_exact(2)) {
            let (high, low) = (VALUES[usize::from(pair[0])], VALUES[usize::from(pair[1])]);
            if (high | low) > 0xf {
                return None;
            }
            *byte = high << 4 | low;
        }
        Some(Self(bytes))
    }

    /// The 32 bytes.
    pub fn bytes(&self) -> &[u8; 32] {
        &self.0
    }
}

/// What each byte is as a hexadecimal digit; 255 where it is none. Digits come in no order that a processor could guess,
/// so that a table is much faster than a choice.
const VALUES: [u8; 256] = {
    let mut values = [u8::MAX; 256];
    let mut value = 0;
    while value < 16 {
        values[b"0123456789abcdef"[value as usize] as usize] = value;
        value += 1;
    }
    values
};

impl fmt::Display for Digest {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|byte| write!(out, "{byte:02x}"))
    }
}

impl fmt::Debug for Digest {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "Digest({self})")
    }
}
