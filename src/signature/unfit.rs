//! Why a key, a signature or a list of signers is not taken.

use std::fmt;

/// Why something is not taken, in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unfit {
    /// Why.
    pub why: String,
}

impl Unfit {
    pub(crate) fn because(why: impl Into<String>) -> Self {
        Self { why: why.into() }
    }
}

impl fmt::Display for Unfit {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.why)
    }
}

impl std::error::Error for Unfit {}
