//! What the front matter declares of the way through a procedure: repeats and fasteners.

use super::{Criterion, Name};
use crate::formula::Typed;
use crate::quantity::{Quantity, Unit};

/// A section or a step that is done more than once.
#[derive(Clone, Debug)]
pub struct Repeat {
    /// What is done again.
    pub what: String,
    /// What makes the passes.
    pub passes: Passes,
    /// The most passes, where there is a limit.
    pub at_most: Option<Typed>,
    /// The time from the beginning of one pass to that of the next.
    pub every: Option<Quantity>,
    /// How much later than that is still in time.
    pub late: Option<Quantity>,
    /// A pass in which this holds does not count, nor do those before it.
    pub resets: Option<Typed>,
    /// What to do when the most passes are made in vain.
    pub fails: Option<String>,
    /// Why the steps after it do not need that it came to its end.
    pub not_needed_after: Option<String>,
}

/// What makes the passes of a repeat.
#[derive(Clone, Debug)]
pub enum Passes {
    /// One for each of these.
    Each(Vec<String>),
    /// One for each item of a list that is read.
    EachOf(Name),
    /// So many.
    Times(Typed),
    /// Until this holds after a pass.
    Until(Typed),
}

/// A group of fasteners that is tightened place by place, stage by stage.
#[derive(Clone, Debug)]
pub struct Fasteners {
    /// What they are.
    pub what: String,
    /// Their places.
    pub positions: Positions,
    /// In which order they are tightened.
    pub order: Pattern,
    /// How they are tightened.
    pub stages: Vec<Stage>,
    /// The tool it is done with.
    pub instrument: Option<Name>,
}

/// The most places that a group of fasteners can have.
pub const MOST_PLACES: usize = 200;

/// The most passes of a repeat.
pub const MOST_PASSES: usize = 1000;

/// The places of a group of fasteners.
#[derive(Clone, Debug)]
pub enum Positions {
    /// Each has a name.
    Named(Vec<String>),
    /// So many, numbered from 1.
    Count(Typed),
}

/// The order of a group of fasteners.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Pattern {
    /// As their places are listed.
    AsListed,
    /// Crosswise: each next one lies as far as can be from the one before.
    Cross,
    /// In this order of places.
    Given(Vec<String>),
}

/// One stage of tightening.
#[derive(Clone, Debug)]
pub struct Stage {
    /// What it is called.
    pub what: String,
    /// What it is brought to and what is good; none for a stage that is done by feel. A torque or an angle of which nobody
    /// says within what it is good is nominal.
    pub criterion: Option<Criterion>,
    /// The unit that is asked for; none where the torque or the angle has its own.
    pub unit: Option<Unit>,
    /// Whether what was reached is read, and judged.
    pub read: bool,
}
