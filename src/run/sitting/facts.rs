//! What was said before, between and after the work.

use std::collections::BTreeMap;

use jiff::ZonedDateTime;

use crate::procedure::{Name, StepId};
use crate::run::stamp::Stamp;

/// A statement about the whole job, by its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Statement {
    /// True before the first step.
    Required(usize),
    /// True before the run is closed.
    CloseUp(usize),
}

/// What was said before, between and after.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Interruption {
    /// When it was said that the procedure is for this vehicle, or that it is used all the same.
    pub covered: Option<Stamp>,
    /// How the vehicle differs from those that the procedure is for.
    pub not_covered: Option<String>,
    /// Statements about the whole job that were confirmed.
    pub stated: BTreeMap<Statement, Stamp>,
    /// Statements that are not true, and how it is instead.
    pub unmet: BTreeMap<Statement, String>,
    /// How things stand, where it was said after the last sitting ended, or without its end.
    pub found: Option<(String, Stamp)>,
    /// From when to when nobody was there, the last time.
    pub away: Option<Away>,
    /// Steps that are looked at again before the work goes on.
    pub recheck: Vec<StepId>,
    /// Protections that stay in force while the run rests, by their hold points, and the entry that says so.
    pub kept: BTreeMap<Name, u64>,
    /// The protection that is ended before the run rests, by its hold point.
    pub making_safe: Option<Name>,
    /// The step that is to be left out once the lead has agreed, and why.
    pub to_approve: Option<(StepId, String)>,
}

/// A time in which nobody was there.
#[derive(Clone, Debug, PartialEq)]
pub struct Away {
    /// The last entry before it.
    pub since: Stamp,
    /// When the run was taken up again.
    pub until: ZonedDateTime,
}
