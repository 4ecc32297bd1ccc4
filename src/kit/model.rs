//! What is laid out, packed and planned, as data. Names and order of the fields are those of the JSON.

use serde::{Serialize, Serializer};

use crate::quantity::Quantity;

/// What a procedure takes, or a whole job.
#[derive(Clone, Copy, Debug)]
pub enum Kit<'k> {
    /// A procedure.
    Procedure(&'k ProcedureKit),
    /// A whole job.
    Job(&'k JobKit),
}

/// What one procedure takes: the work of one evening.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ProcedureKit {
    /// Its file's name without the ending.
    pub procedure: String,
    /// Its title.
    pub title: String,
    /// Its revision.
    pub revision: String,
    /// How strictly it is followed.
    pub level_of_use: &'static str,
    /// The sections that are followed otherwise.
    pub other_levels: Vec<SectionLevel>,
    /// Who is there.
    pub persons: Vec<Person>,
    /// What is laid out.
    pub tools: Vec<ToolKit>,
    /// What is used up.
    pub materials: Vec<SupplyKit>,
    /// What stays on the vehicle.
    pub parts: Vec<SupplyKit>,
    /// The moments at which one person is not enough.
    pub together: Vec<Moment>,
    /// What has to be waited for.
    pub waits: Vec<PlannedWait>,
    /// What must be so before.
    pub required: Vec<String>,
}

/// A section of another level of use than its procedure.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct SectionLevel {
    /// Its title.
    pub section: String,
    /// How strictly it is followed.
    pub level_of_use: &'static str,
}

/// A role.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Person {
    /// Its name.
    pub role: String,
    /// What its person does.
    pub what: String,
}

/// When something is needed first, and by whom; a step of none where no step speaks of it.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct First {
    /// The number of the step.
    pub step: Option<String>,
    /// The roles that do it.
    pub by: Vec<String>,
}

/// A tool.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ToolKit {
    /// Its name in the file.
    pub name: String,
    /// What it is.
    pub what: String,
    /// By how much it may be off.
    pub accuracy: Option<String>,
    /// The least and the most that it reads.
    pub range: Option<[String; 2]>,
    /// Whether its calibration comes due.
    pub calibrated: bool,
    /// The same in words: `good to ±0.02 L, reads 0 L to 2 L, calibrated`.
    #[serde(skip)]
    pub remark: String,
    /// When it is needed first.
    pub first: First,
}

/// A material or a part of one procedure.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct SupplyKit {
    /// Its name in the file.
    pub name: String,
    /// What it is.
    pub what: String,
    /// How much; none where a value is missing, or where no amount is given.
    #[serde(serialize_with = "shown")]
    pub amount: Option<Quantity>,
    /// How the amount is worked out, in words.
    pub formula: Option<String>,
    /// What is bought.
    pub buy: Buy,
    /// When it is needed first.
    pub first: First,
}

/// How something is bought.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Buy {
    /// What one pack holds.
    #[serde(serialize_with = "shown")]
    pub pack: Option<Quantity>,
    /// How many packs, or pieces, cover the amount; none where either is not known.
    #[serde(serialize_with = "shown")]
    pub count: Option<Quantity>,
    /// What one of them costs.
    #[serde(serialize_with = "shown")]
    pub price: Option<Quantity>,
    /// What all of them cost.
    #[serde(serialize_with = "shown")]
    pub cost: Option<Quantity>,
    /// How long before it is ordered.
    #[serde(serialize_with = "shown")]
    pub lead_time: Option<Quantity>,
}

/// A step that takes more than one person.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Moment {
    /// The number of the step.
    pub step: String,
    /// The step in a few words.
    pub what: String,
    /// The roles.
    pub roles: Vec<String>,
    /// What they do together.
    pub why: &'static str,
    /// In which pass, where the step is done more than once.
    pub pass: Option<String>,
}

/// A wait as it lies ahead.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PlannedWait {
    /// Its name in the file.
    pub name: String,
    /// What is waited for.
    pub what: String,
    /// The least time.
    #[serde(serialize_with = "shown")]
    pub at_least: Option<Quantity>,
    /// The most.
    #[serde(serialize_with = "shown")]
    pub at_most: Option<Quantity>,
    /// The step with which its clock starts.
    pub from: Option<String>,
    /// The first step that needs it.
    pub to: Option<String>,
    /// How often it was started in a rehearsal; none before.
    pub times: usize,
}

/// What a whole job takes.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct JobKit {
    /// Its file's name without the ending.
    pub job: String,
    /// Its title.
    pub title: String,
    /// What it is for.
    pub what: String,
    /// What is laid out, in all.
    pub tools: Vec<ToolSum>,
    /// What is used up, in all.
    pub materials: Vec<Sum>,
    /// What stays on the vehicle, in all.
    pub parts: Vec<Sum>,
    /// What everything costs that has a price; none where nothing has one.
    #[serde(serialize_with = "shown")]
    pub cost: Option<Quantity>,
    /// How many materials and parts are not in the cost.
    pub without_cost: usize,
    /// The hours.
    pub time: Time,
    /// Its procedures, in the order of the list.
    pub procedures: Vec<Evening>,
}

/// A tool, over all procedures that need it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ToolSum {
    /// What it is.
    pub what: String,
    /// What it has to be good for: accuracy, range, calibration.
    pub remark: String,
    /// The places of the procedures in the list, from 1.
    pub procedures: Vec<usize>,
}

/// A material or a part, over all procedures that need it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Sum {
    /// What it is.
    pub what: String,
    /// How much: one amount for each kind of thing that is measured, exactly summed.
    #[serde(serialize_with = "all_shown")]
    pub amounts: Vec<Quantity>,
    /// What comes on top and rests on the vehicle, in words.
    pub more: Vec<String>,
    /// What is bought.
    pub buy: Buy,
    /// The places of the procedures in the list, from 1.
    pub procedures: Vec<usize>,
}

impl Sum {
    /// How much, and what comes on top: `2.5 L and [oil that the case takes] + 0.5 L`.
    pub fn amount_in_words(&self) -> String {
        let amounts = self.amounts.iter().map(ToString::to_string);
        amounts.chain(self.more.iter().cloned()).collect::<Vec<_>>().join(" and ")
    }
}

/// The hours of a job, as its file says them.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Time {
    /// Of what one person can do: `10 h 30 min`.
    pub alone: String,
    /// Of what takes two.
    pub two: String,
    /// Of how many procedures the file does not say it.
    pub not_said: usize,
}

/// A procedure of a job.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Evening {
    /// Its place in the list, from 1.
    pub place: usize,
    /// What the list calls it.
    pub title: String,
    /// How long it takes somebody alone; none where it takes two.
    #[serde(serialize_with = "shown")]
    pub alone: Option<Quantity>,
    /// How long it takes two.
    #[serde(serialize_with = "shown")]
    pub two: Option<Quantity>,
    /// How long nobody can go on with it after what comes before.
    #[serde(serialize_with = "shown")]
    pub away: Option<Quantity>,
    /// What it takes.
    pub kit: ProcedureKit,
}

#[expect(clippy::ref_option, reason = "serde hands over a reference to the field")]
fn shown<S: Serializer>(quantity: &Option<Quantity>, to: S) -> Result<S::Ok, S::Error> {
    quantity.as_ref().map(ToString::to_string).serialize(to)
}

fn all_shown<S: Serializer>(quantities: &[Quantity], to: S) -> Result<S::Ok, S::Error> {
    quantities.iter().map(ToString::to_string).collect::<Vec<_>>().serialize(to)
}
