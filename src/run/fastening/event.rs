//! What can happen, be asked and be answered at a group of fasteners.

use crate::procedure::Name;
use crate::quantity::Entry;
use crate::run::answered::Disposition;
use crate::run::stamp::Stamp;
use crate::run::work::opinion::Opinion;

/// One place in one stage.
#[derive(Clone, Debug, PartialEq)]
pub struct Spot {
    /// The group of fasteners.
    pub group: Name,
    /// The stage, from 0.
    pub stage: usize,
    /// The place, by its name.
    pub position: String,
}

/// What can happen.
#[expect(missing_docs, reason = "the fields are what their names say")]
#[derive(Clone, Debug, PartialEq)]
pub enum FasteningEvent {
    /// The tool is set for a stage, and the stage is begun.
    StageSet { group: Name, stage: usize },
    /// A place was done; where the stage is read, what was reached.
    Tightened { at: Spot, reached: Option<Entry> },
    /// A person said whether what was reached is good beside its nominal value; where it is not, what is wrong.
    Judged { at: Spot, person: String, wrong: Option<String> },
    /// What was reached was entered wrongly, at this entry; this is what it was.
    Corrected { at: Spot, entry: u64, reached: Entry, reason: String },
    /// What was reached is not good; the place is done once more.
    Again { at: Spot, reason: String },
    /// What was reached is not good and is gone on with.
    Accepted { at: Spot, disposition: Disposition, reason: String },
    /// A place cannot be done: it is left out, in this stage and in those after it.
    Skipped { at: Spot, reason: String },
    /// A place was loosened again, or all of them: it goes through all stages once more.
    Loosened { group: Name, position: Option<String>, reason: String },
}

/// What is asked.
#[expect(missing_docs, reason = "the fields are what their names say")]
#[derive(Clone, Debug, PartialEq)]
pub enum FasteningAsk {
    /// Set the tool for this stage.
    SetStage { group: Name, stage: usize },
    /// Do this place.
    Tighten(Spot),
    /// Do this place, and read what was reached.
    Reach(Spot),
    /// Is what was reached good beside its nominal value?
    Nominal(Spot),
    /// What was reached is not good, or cannot be judged: what now?
    Failed(Spot),
    /// It cannot be worked out how many places there are.
    NoPlaces { group: Name, why: String },
}

/// What is answered, beside what other questions are answered with too: done, as typed, good, once more, gone on with.
#[expect(missing_docs, reason = "the fields are what their names say")]
#[derive(Clone, Debug, PartialEq)]
pub enum FasteningAnswer {
    /// The tool is set.
    StageSet,
    /// A value was entered wrongly: that entry, or the newest of the place in whatever pass.
    Correct { at: Spot, entry: Option<u64>, text: String, reason: String },
    /// Leave the place out, as a deviation.
    Skip { reason: String },
    /// A place, or all of them, was loosened again.
    Loosened { group: Name, position: Option<String>, reason: String },
}

/// Something that was done at a group.
#[derive(Clone, Debug, PartialEq)]
pub struct Act {
    /// What.
    pub event: FasteningEvent,
    /// When.
    pub stamp: Stamp,
    /// The deviation that records it, from 0.
    pub deviation: Option<usize>,
}

impl Act {
    /// Whether it is work at a fastener, in contrast to words about it.
    pub(in crate::run) fn is_work(&self) -> bool {
        !matches!(
            self.event,
            FasteningEvent::Corrected { .. }
                | FasteningEvent::Judged { .. }
                | FasteningEvent::Loosened { .. }
        )
    }

    /// What a person said with it of what was reached.
    pub fn opinion(&self) -> Option<Opinion> {
        let FasteningEvent::Judged { person, wrong, .. } = &self.event else { return None };
        Some(Opinion { person: person.clone(), wrong: wrong.clone(), stamp: self.stamp.clone() })
    }

    /// Whether something was loosened again with it.
    pub(in crate::run) fn is_loosened(&self) -> bool {
        matches!(self.event, FasteningEvent::Loosened { .. })
    }
}
