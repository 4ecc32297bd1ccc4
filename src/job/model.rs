//! A job: its procedures in the order of its list.

use crate::quantity::Quantity;
use crate::source::Span;

/// A job.
#[derive(Clone, Debug)]
pub struct Job {
    /// Its file's name without the ending.
    pub id: String,
    /// Its title.
    pub title: String,
    /// What it is for.
    pub what: String,
    /// Its procedures, in the order of the list.
    pub procedures: Vec<Planned>,
}

/// A procedure of a job.
#[derive(Clone, Debug)]
pub struct Planned {
    /// Its file's name without the ending.
    pub id: String,
    /// Where its file is, seen from the job's.
    pub address: String,
    /// What the list calls it.
    pub title: String,
    /// The places in the list of those that come before it.
    pub after: Vec<usize>,
    /// How long it takes somebody alone; none where it takes two.
    pub alone: Option<Quantity>,
    /// How long it takes two.
    pub two: Option<Quantity>,
    /// How long nobody can go on with it after what comes before: the converter is away, paint cures.
    pub away: Option<Quantity>,
    /// Where it stands in the text.
    pub span: Span,
}
