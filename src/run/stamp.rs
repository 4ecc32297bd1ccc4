//! An entry: when it was made and where in the work it belongs; how a run began.

use std::sync::Arc;

use jiff::ZonedDateTime;

use crate::run::work::part::Address;

/// When an event was recorded, its place in the journal, and where in the work it belongs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stamp {
    /// Counts from 1 without a gap.
    pub seq: u64,
    /// The computer's time, with its offset.
    pub at: ZonedDateTime,
    /// The occurrence that it belongs to, by its address; none where it belongs to the run as a whole.
    pub place: Option<Arc<Address>>,
}

/// Exactly which bytes a run goes by.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pin {
    /// Its file's name without the ending: `cooler-line-flush`.
    pub name: String,
    /// What it is: a procedure's title and revision, a vehicle's description.
    pub what: String,
    /// SHA-256 of its bytes, in hexadecimal.
    pub sha256: String,
}

/// How a run began.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Start {
    /// The run's name, for example `2026-11-21-cooler-line-flush`.
    pub run: String,
    /// The version of bayhand that began it.
    pub engine: String,
    /// The procedure.
    pub procedure: Pin,
    /// The procedures that it links to; the name of each is its address, seen from the folder of the first.
    pub linked: Vec<Pin>,
    /// The vehicle sheet, where there is one.
    pub sheet: Option<Pin>,
    /// The job that it belongs to, where there is one: the day it began, and its file's name.
    pub job: Option<String>,
    /// What the earlier runs of the job leave to it.
    pub inherited: Inherited,
    /// The file that answers in a person's place, where there is one: its times are not a clock's.
    pub answered_from: Option<String>,
}

/// What the earlier runs of a job leave to one that begins.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Inherited {
    /// Whether nothing of the job comes after it: what is loose is settled in it.
    pub is_last: bool,
    /// Protections that are in force.
    pub protections: Vec<InheritedProtection>,
    /// Loose ends that are open.
    pub loose_ends: Vec<InheritedEnd>,
}

/// A protection that an earlier run of the job left in force.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct InheritedProtection {
    /// The hold point that put it in force.
    pub hold: String,
    /// The procedure of that hold point, by its file's name without the ending.
    pub procedure: String,
    /// What protects.
    pub what: String,
    /// The same in a word or two.
    pub short: String,
    /// The run in which it was looked at last.
    pub run: String,
    /// The entry there.
    pub entry: u64,
    /// Who released it there.
    pub by: String,
    /// When.
    pub at: ZonedDateTime,
}

/// A loose end that an earlier run of the job left.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct InheritedEnd {
    /// What is left to be done.
    pub what: String,
    /// The run that left it.
    pub run: String,
    /// The entry there by which it is known.
    pub entry: u64,
    /// Its name in the procedure, where it has one.
    pub name: Option<String>,
}
