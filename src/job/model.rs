//! A job: its procedures in the order of its list.

use crate::procedure::ResultOf;
use crate::quantity::{Quantity, Unit};
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
    /// Results of several of them that belong together.
    pub balances: Vec<Balance>,
}

/// Results of several procedures that belong together.
#[derive(Clone, Debug)]
pub struct Balance {
    /// Its name.
    pub name: String,
    /// What it is.
    pub what: String,
    /// The results.
    pub figures: Figures,
}

/// The results of a balance.
#[derive(Clone, Debug)]
pub enum Figures {
    /// They are summed.
    Sum {
        /// The unit of the sum.
        unit: Unit,
        /// What counts as more.
        plus: Vec<Source>,
        /// What counts as less.
        minus: Vec<Source>,
    },
    /// They are told one below the other.
    Lists(Vec<Source>),
}

/// A result in a balance.
#[derive(Clone, Debug)]
pub struct Source {
    /// Which of which procedure.
    pub of: ResultOf,
    /// Where it stands in the text.
    pub span: Span,
}

impl Balance {
    /// All results that it speaks of.
    pub fn sources(&self) -> impl Iterator<Item = &Source> {
        let (first, second) = match &self.figures {
            Figures::Sum { plus, minus, .. } => (plus.as_slice(), minus.as_slice()),
            Figures::Lists(lists) => (lists.as_slice(), [].as_slice()),
        };
        first.iter().chain(second)
    }
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
