//! Named outcomes of a reading: words that stand in place of its value, each with its own verdict.

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

/// Whether two texts say the same words, whatever their case and the blanks between them.
pub(super) fn same_words(one: &str, other: &str) -> bool {
    let plain = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase();
    plain(one) == plain(other)
}
