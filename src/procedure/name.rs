//! What the front matter declares and the body mentions: a name.

use std::borrow::Borrow;
use std::fmt;

/// A name that the front matter declares and the body mentions: `pan_temp`.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Name(pub String);

impl Name {
    /// The name as written.
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// Whether a text can be a name: a small letter, then small letters, digits and underscores.
    pub fn is_well_formed(text: &str) -> bool {
        crate::table::is_name(text)
    }
}

/// A name is found under its spelling.
impl Borrow<str> for Name {
    fn borrow(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for Name {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(&self.0)
    }
}
