//! What is said of loose ends.

use crate::run::loose::event::{EndId, LooseAnswer, LooseEvent};
use crate::run::loose::facts::Became;
use crate::run::view::View;

impl Became {
    /// What became of it, in a few words.
    pub fn words(&self) -> String {
        match self {
            Self::Settled { how } => format!("settled: {how}"),
            Self::CarriedOut { by, why } => format!("carried out of the job, {by} sees to it: {why}"),
        }
    }
}

impl LooseEvent {
    /// The answer that made it.
    pub(crate) fn answer(&self) -> LooseAnswer {
        match self.clone() {
            Self::Noted { what } => LooseAnswer::Note { what },
            Self::Settled { end, how } => LooseAnswer::Settle { end, how },
            Self::CarriedOut { end, by, why } => LooseAnswer::CarryOut { end, by, why },
        }
    }

    /// What happened, in a few words; `view` is the run after it.
    pub fn words(&self, view: View<'_>) -> String {
        let what = |end: &EndId| {
            let mut ends = view.loose_ends().into_iter();
            ends.find(|one| one.id == *end).map(|one| one.what).unwrap_or_default()
        };
        match self {
            Self::Noted { what } => format!("left to be done: {what}"),
            Self::Settled { end, how } => format!("settled: {}; {how}", what(end)),
            Self::CarriedOut { end, by, .. } => {
                format!("carried out of the job: {}; {by} sees to it", what(end))
            }
        }
    }

    /// The person's reason, where there is one.
    pub fn reason(&self) -> Option<&str> {
        match self {
            Self::CarriedOut { why, .. } => Some(why),
            Self::Noted { .. } | Self::Settled { .. } => None,
        }
    }
}
