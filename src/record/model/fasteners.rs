//! Fasteners in the record: every group, stage by stage and place by place.

use serde::{Deserialize, Serialize};

use super::{Amount, Instrument, Judged, Limit, Moment, Place, TypedAmount, UsedInstrument};

/// A group of fasteners at one occurrence of its step.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FastenerGroup {
    /// Its name in the procedure.
    pub name: String,
    /// What they are.
    pub what: String,
    /// The step that they are tightened at.
    pub step: String,
    /// Which occurrence of its step it is.
    #[serde(default, skip_serializing_if = "Place::is_plain")]
    pub place: Place,
    /// What they are tightened with.
    pub instrument: Option<Instrument>,
    /// done, failed, not done; gone on with where a place was left out or is not as required.
    pub state: String,
    /// The places, in the order in which they are done.
    pub order: Vec<String>,
    /// The stages, in order; none where nothing was done.
    pub stages: Vec<FastenerStage>,
    /// When and why fasteners were loosened again.
    pub loosened: Vec<Loosened>,
}

/// One stage.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FastenerStage {
    /// What it is called.
    pub what: String,
    /// What it tightens to, as it stood last; nothing for a stage that is done by feel or only read.
    pub target: Option<FastenerTarget>,
    /// When it was begun with the tool set for it; never for a first stage that was not announced.
    pub begun: Vec<Moment>,
    /// The places, in the order in which they are done.
    pub places: Vec<FastenerPlace>,
}

/// What a stage tightens to.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FastenerTarget {
    /// The torque or the angle; none where any value between the limits is good.
    pub amount: Option<Amount>,
    /// How the amount came about.
    pub trace: Option<String>,
    /// The lower limit.
    pub lower: Option<Limit>,
    /// The upper limit.
    pub upper: Option<Limit>,
}

/// One place in one stage.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FastenerPlace {
    /// Its name.
    pub position: String,
    /// What became of it: done, not done, or by which deviation.
    pub state: String,
    /// What was done, in order; also what was loosened since.
    pub acts: Vec<FastenerAct>,
}

/// Something that was done at a place.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FastenerAct {
    /// What: done, corrected, once more, gone on with, left out.
    pub what: String,
    /// What was reached.
    pub reached: Option<TypedAmount>,
    /// What was to be thought of it.
    pub judged: Option<Judged>,
    /// Why.
    pub reason: Option<String>,
    /// The deviation that records it, from 1.
    pub deviation: Option<usize>,
    /// The instrument, where the tool is calibrated.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub instrument: Option<UsedInstrument>,
    /// Who.
    pub who: Vec<String>,
    /// When.
    pub when: Moment,
}

/// Fasteners that were loosened again.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Loosened {
    /// Which place; nothing for all of them.
    pub position: Option<String>,
    /// Why.
    pub reason: String,
    /// When.
    pub when: Moment,
}
