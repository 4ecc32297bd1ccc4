//! Named outcomes of a reading: words that stand in place of its value, each with its own verdict.

use super::declared::Reading;

/// One of them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Instead {
    /// The author's words: `does not burn`.
    pub words: String,
    /// What the procedure makes of it.
    pub counts: CountsAs,
}

/// What an outcome without a value counts as.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CountsAs {
    /// It is good.
    Pass,
    /// It is not.
    Fail,
    /// It is written down and not judged.
    InformationOnly,
}

impl CountsAs {
    /// All of them, in the order in which they are listed.
    pub const ALL: [Self; 3] = [Self::Pass, Self::Fail, Self::InformationOnly];

    /// As it is written and said.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Pass => "pass",
            Self::Fail => "fail",
            Self::InformationOnly => "information only",
        }
    }
}

impl Instead {
    /// `"does not burn": pass`.
    pub fn shown(&self) -> String {
        format!("\"{}\": {}", self.words, self.counts.word())
    }
}

impl Reading {
    /// The outcome that was typed in place of a value, whatever its case and its blanks.
    pub fn outcome(&self, typed: &str) -> Option<&Instead> {
        self.instead.iter().find(|outcome| same_words(&outcome.words, typed))
    }

    /// Everything that can be picked at a choice: what can be chosen, then what can come out instead.
    pub fn offered(&self, choices: &[String]) -> Vec<String> {
        choices.iter().cloned().chain(self.instead.iter().map(|outcome| outcome.words.clone())).collect()
    }
}

/// Whether two texts say the same words, whatever their case and the blanks between them.
pub(super) fn same_words(one: &str, other: &str) -> bool {
    let plain = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase();
    plain(one) == plain(other)
}
