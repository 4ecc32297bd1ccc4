//! What a person says of something beside a nominal value: good, or not good.

use crate::run::stamp::Stamp;

/// What a person says of something that no limit judges.
#[derive(Clone, Debug, PartialEq)]
pub struct Opinion {
    /// Who.
    pub person: String,
    /// What is wrong with it; none where it is good.
    pub wrong: Option<String>,
    /// When.
    pub stamp: Stamp,
}

impl Opinion {
    /// Whether it is good.
    pub const fn is_good(&self) -> bool {
        self.wrong.is_none()
    }

    /// `good by Robin Vale`, `not good by Robin Vale: it flickers`.
    pub fn words(&self) -> String {
        words(&self.person, self.wrong.as_deref())
    }
}

/// What a person said of something, in words.
pub(in crate::run) fn words(person: &str, wrong: Option<&str>) -> String {
    wrong.map_or_else(|| format!("good by {person}"), |wrong| format!("not good by {person}: {wrong}"))
}
