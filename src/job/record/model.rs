//! The record of a job as it stands on disk. These types are the format; the live ones may change freely.
//!
//! Numbers and times stand in it as they do in the record of a run. Format 1 is the first.

use serde::{Deserialize, Serialize};

use crate::record::model::{self, Amount, Moment, Seal};

/// The format that is written.
pub const FORMAT: u32 = 1;

/// What is left of a job.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct JobRecord {
    /// The version of this format.
    pub format: u32,
    /// The day on which the job began and its file's name: what its runs name.
    pub job: String,
    /// Its title.
    pub title: String,
    /// What it is for.
    pub what: String,
    /// How it came out, in words.
    pub result: String,
    /// What is open; nothing where it is complete.
    pub open: Vec<String>,
    /// Runs that may belong to it and could not be read, each with the reason.
    pub unread: Vec<String>,
    /// What it was done to, by the sheet of the newest run.
    pub vehicle: Option<Vehicle>,
    /// Its runs, the oldest first.
    pub runs: Vec<Run>,
    /// What belongs together over several runs.
    pub balances: Vec<Balance>,
    /// How long people were at it.
    pub hours: Hours,
    /// Every group of fasteners, place by place.
    pub fasteners: Vec<Fasteners>,
    /// Everything that protected people.
    pub protections: Vec<Protection>,
    /// What was left to be done, and what became of it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub loose_ends: Vec<LooseEnd>,
    /// What falls due after it.
    pub dues: Vec<Due>,
    /// What one run handed on to a later one.
    pub handed_on: Vec<HandedOn>,
    /// What shows that nothing above was changed.
    pub seal: Seal,
}

impl JobRecord {
    /// Whether nothing is open and everything could be read.
    pub fn is_complete(&self) -> bool {
        self.open.is_empty() && self.unread.is_empty()
    }
}

/// The vehicle of a job.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Vehicle {
    /// What its people call it.
    pub description: String,
    /// The number that identifies it.
    pub identification: String,
}

/// A run of a job.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Run {
    /// Its name.
    pub run: String,
    /// Its procedure, by its file's name without the ending.
    pub procedure: String,
    /// What that is called.
    pub title: String,
    /// The revision that it went by.
    pub revision: String,
    /// The version of bayhand that began it.
    pub engine: String,
    /// The file that answered in a person's place.
    pub answered_from: Option<String>,
    /// When it began.
    pub began: Moment,
    /// When it was closed; nothing where it was not.
    pub closed: Option<Moment>,
    /// The newest entry.
    pub last: Moment,
    /// How long people were at it: the time between its entries, without the long pauses.
    pub time: String,
    /// Who did what.
    pub people: Vec<String>,
    /// The odometer, where it was asked for.
    pub odometer: Option<String>,
    /// How it came out, in words.
    pub result: String,
    /// How many results were taken, over all passes.
    pub results: usize,
    /// Results that were outside their limits, and what became of each.
    pub found: Vec<Found>,
    /// Departures from the procedure.
    pub deviations: Vec<Deviation>,
    /// The seal of its own record; nothing where it has none.
    pub seal: String,
}

/// A result that was outside its limits.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Found {
    /// Its name in the procedure.
    pub name: String,
    /// What it is.
    pub what: String,
    /// The step.
    pub step: String,
    /// In which passes.
    pub pass: Option<String>,
    /// What was found.
    pub found: String,
    /// Why that is not good.
    pub why: String,
    /// What became of it.
    pub then: String,
    /// When; of what is computed nothing.
    pub when: Option<Moment>,
}

/// A departure from the procedure.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Deviation {
    /// Its number in its run.
    pub number: usize,
    /// The step; nothing where the whole job was departed from.
    pub step: String,
    /// From what.
    pub departs: String,
    /// Why.
    pub reason: String,
    /// What was decided; nothing where that is open.
    pub disposition: Option<String>,
    /// When it was entered.
    pub when: Moment,
}

/// Results of several runs that belong together.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Balance {
    /// Its name in the job.
    pub name: String,
    /// What it is.
    pub what: String,
    /// Each figure.
    pub rows: Vec<Row>,
    /// The sum; nothing where things are only told.
    pub sum: Option<Sum>,
}

/// A figure of a balance.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Row {
    /// plus, minus, or nothing where it is only told.
    pub sign: String,
    /// What it is.
    pub what: String,
    /// Its name, and the procedure: `drained in battery-drain-exhaust`.
    pub result: String,
    /// In which pass.
    pub pass: Option<String>,
    /// The amount in the unit of the sum.
    pub amount: Option<Amount>,
    /// The words, where it is no amount; in a sum they count for nothing, and the sum says so.
    pub words: Option<String>,
    /// Why it is not there yet.
    pub open: Option<String>,
    /// The run that it is from.
    pub run: Option<String>,
    /// The entry.
    pub when: Option<Moment>,
}

/// The sum of a balance.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sum {
    /// All that counts as more.
    pub plus: Amount,
    /// All that counts as less.
    pub minus: Amount,
    /// The one less the other.
    pub total: Amount,
    /// What is missing in it, in words; nothing where it is whole.
    pub without: Option<String>,
}

/// How long people were at a job.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Hours {
    /// All of it.
    pub time: String,
    /// What an hour is worth, by the sheet.
    pub rate: Option<Amount>,
    /// Where that is from.
    pub source: Option<String>,
    /// What all of it is worth.
    pub worth: Option<Amount>,
}

/// A group of fasteners of one run.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Fasteners {
    /// The run.
    pub run: String,
    /// Its name in the procedure.
    pub name: String,
    /// What they are.
    pub what: String,
    /// The step that they are tightened at.
    pub step: String,
    /// In which passes.
    pub pass: Option<String>,
    /// done, failed, not done, not applicable; gone on with where a place is not as required.
    pub state: String,
    /// Its places, in the order in which they are done.
    pub places: Vec<FastenerPlace>,
}

/// A place of a group of fasteners.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FastenerPlace {
    /// Its name.
    pub position: String,
    /// What became of it in the last stage: done, not done, failed, or by which deviation.
    pub state: String,
    /// The last stage in which it was worked at.
    pub stage: Option<String>,
    /// What that stage tightens to.
    pub target: Option<String>,
    /// What was reached.
    pub reached: Option<String>,
    /// Why it was loosened again, where it was.
    pub loosened: Option<String>,
    /// When it was worked at last.
    pub when: Option<Moment>,
}

/// Something that protected people.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Protection {
    /// The run.
    pub run: String,
    /// What protected.
    pub what: String,
    /// Who released it first.
    pub by: Vec<String>,
    /// Since when.
    pub since: Moment,
    /// Why it stands no more; nothing where it does.
    pub over: Option<String>,
    /// Since when it does not.
    pub until: Option<Moment>,
}

/// A result that one run handed on to another.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct HandedOn {
    /// The run that began with it.
    pub to: String,
    /// What it is called there.
    pub name: String,
    /// What it is.
    pub what: String,
    /// The value.
    pub value: String,
    /// The result, its run, its entry and the time.
    pub from: String,
}

/// Something that falls due after a run.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Due {
    /// The run that set it.
    pub run: String,
    /// What it is known by in a calendar, whenever it is written: made of the first entry of the run and its name.
    pub uid: String,
    /// When it is due.
    pub due: model::Due,
}

/// Something that a run left to be done.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LooseEnd {
    /// The run that left it.
    pub run: String,
    /// What is to be done.
    pub what: String,
    /// Where in that run: a step with its pass, or a remark.
    pub left_at: String,
    /// When, and the entry there; nothing where its step was taken back since.
    pub left: Option<Moment>,
    /// What became of it, in words; nothing while it is open.
    pub became: Option<String>,
    /// In which run.
    pub became_in: Option<String>,
    /// The entry there.
    pub became_entry: Option<u64>,
}
