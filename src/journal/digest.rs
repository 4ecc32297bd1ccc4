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
            *byte = value(pair[0])? << 4 | value(pair[1])?;
        }
        Some(Self(bytes))
    }

    /// The 32 bytes.
    pub fn bytes(&self) -> &[u8; 32] {
        &self.0
    }
}

fn value(digit: u8) -> Option<u8> {
    match digit {
        b'0'..=b'9' => Some(digit - b'0'),
        b'a'..=b'f' => Some(digit - b'a' + 10),
        _ => None,
    }
}

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
