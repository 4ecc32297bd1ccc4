//! What is said of a group of fasteners.

use crate::procedure::Name;
use crate::run::fastening::event::{FasteningAnswer, FasteningAsk, FasteningEvent, Spot};
use crate::run::prompt::{Answer, SlipCheck};
use crate::run::view::View;

impl Spot {
    /// What the stage is called.
    pub fn stage_words(&self, view: View<'_>) -> String {
        stage_words(view, &self.group, self.stage)
    }

    /// In words: `7, stage half (bolts of the pan)`.
    pub fn words(&self, view: View<'_>) -> String {
        let what = view.book.procedure.called(&self.group);
        format!("{}, stage {} ({what})", self.position, self.stage_words(view))
    }
}

fn stage_words(view: View<'_>, group: &Name, stage: usize) -> String {
    let group = view.book.procedure.fastener_group(group);
    group.and_then(|group| group.stages.get(stage)).map(|stage| stage.what.clone()).unwrap_or_default()
}

impl FasteningAsk {
    /// The group.
    pub fn group(&self) -> &Name {
        match self {
            Self::SetStage { group, .. } | Self::NoPlaces { group, .. } => group,
            Self::Tighten(at) | Self::Reach(at) | Self::Nominal(at) | Self::Failed(at) => &at.group,
        }
    }

    /// The place that is asked about.
    pub fn spot(&self) -> Option<&Spot> {
        match self {
            Self::Tighten(at) | Self::Reach(at) | Self::Nominal(at) | Self::Failed(at) => Some(at),
            Self::SetStage { .. } | Self::NoPlaces { .. } => None,
        }
    }

    /// Where the run stands, in a few words: group, stage and place.
    pub fn label(&self, view: View<'_>) -> String {
        match self {
            Self::SetStage { group, stage } => format!("{group} stage {}", stage_words(view, group, *stage)),
            Self::NoPlaces { group, .. } => group.to_string(),
            Self::Tighten(at) | Self::Reach(at) | Self::Nominal(at) | Self::Failed(at) => {
                format!("{} {} {}", at.group, at.stage_words(view), at.position)
            }
        }
    }
}

impl FasteningEvent {
    /// The group.
    pub fn group(&self) -> &Name {
        match self {
            Self::StageSet { group, .. } | Self::Loosened { group, .. } => group,
            Self::Tightened { at, .. }
            | Self::Judged { at, .. }
            | Self::Corrected { at, .. }
            | Self::Again { at, .. }
            | Self::Accepted { at, .. }
            | Self::Skipped { at, .. } => &at.group,
        }
    }

    /// The place that it is about.
    pub fn spot(&self) -> Option<&Spot> {
        match self {
            Self::Tightened { at, .. }
            | Self::Judged { at, .. }
            | Self::Corrected { at, .. }
            | Self::Again { at, .. }
            | Self::Accepted { at, .. }
            | Self::Skipped { at, .. } => Some(at),
            Self::StageSet { .. } | Self::Loosened { .. } => None,
        }
    }

    /// The answer that made it.
    pub(crate) fn answer(&self) -> Answer {
        Answer::Fastening(match self.clone() {
            Self::Tightened { reached: None, .. } => return Answer::Done,
            Self::Tightened { reached: Some(reached), .. } => {
                return Answer::Typed { text: reached.text, slip: SlipCheck::Sure };
            }
            Self::Judged { wrong, .. } => return Answer::judging(wrong),
            Self::Again { reason, .. } => return Answer::Again { reason },
            Self::Accepted { disposition, reason, .. } => return Answer::Accept { disposition, reason },
            Self::StageSet { .. } => FasteningAnswer::StageSet,
            Self::Corrected { at, entry, reached, reason } => {
                FasteningAnswer::Correct { at, entry: Some(entry), text: reached.text, reason }
            }
            Self::Skipped { reason, .. } => FasteningAnswer::Skip { reason },
            Self::Loosened { group, position, reason } => {
                FasteningAnswer::Loosened { group, position, reason }
            }
        })
    }

    /// What happened, in a few words; `view` is the run after it.
    pub fn words(&self, view: View<'_>) -> String {
        let what = || view.book.procedure.what(self.group()).unwrap_or_default();
        let deviation = || format!("deviation {} recorded", view.state.deviations.len());
        match self {
            Self::StageSet { group, stage } => {
                format!("stage {} begun ({})", stage_words(view, group, *stage), what())
            }
            Self::Tightened { at, reached: None } => format!("{} done", at.words(view)),
            Self::Tightened { at, reached: Some(reached) } => {
                format!("{} reached {}", at.words(view), reached.typed)
            }
            Self::Judged { at, person, wrong } => {
                format!("{}: {}", at.words(view), crate::run::work::opinion::words(person, wrong.as_deref()))
            }
            Self::Corrected { at, reached, .. } => format!("{} corrected: {}", at.words(view), reached.typed),
            Self::Again { at, .. } => format!("{} is done once more", at.words(view)),
            Self::Accepted { at, .. } => format!("{} gone on with; {}", at.words(view), deviation()),
            Self::Skipped { at, .. } => format!("{} left out; {}", at.words(view), deviation()),
            Self::Loosened { position, .. } if view.book.hold_of_fasteners(self.group()).is_some() => {
                let position = position.as_deref().unwrap_or("all");
                format!("{position} loosened again: every place once more at its hold point ({})", what())
            }
            Self::Loosened { position: Some(position), .. } => {
                format!("{position} loosened again: through all stages once more ({})", what())
            }
            Self::Loosened { position: None, .. } => {
                format!("all loosened again: through all stages once more ({})", what())
            }
        }
    }

    /// The person's reason, where there is one.
    pub fn reason(&self) -> Option<&str> {
        match self {
            Self::Corrected { reason, .. }
            | Self::Again { reason, .. }
            | Self::Accepted { reason, .. }
            | Self::Skipped { reason, .. }
            | Self::Loosened { reason, .. } => Some(reason),
            Self::Judged { wrong, .. } => wrong.as_deref(),
            Self::StageSet { .. } | Self::Tightened { .. } => None,
        }
    }
}
