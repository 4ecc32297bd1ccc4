//! What the front matter declares and the body mentions: a name.

use std::borrow::Borrow;
use std::fmt;
use std::sync::Arc;

/// A name that the front matter declares and the body mentions: `pan_temp`. It stands in many places, which share its letters.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Name(Arc<str>);

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

impl<T: AsRef<str>> From<T> for Name {
    fn from(spelling: T) -> Self {
        Self(spelling.as_ref().into())
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
