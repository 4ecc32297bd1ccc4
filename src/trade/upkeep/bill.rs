//! What a job costs, to the last coin.

use crate::quantity::Num;
use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape, Sort};

pub(super) const JOB_COST: Function = Function {
    name: "job_cost",
    summary: "what a job costs: work, parts and materials, with tax on all of it",
    parameters: &[
        Parameter::amount("work", "h", "the hours of work that are charged").at_least("0"),
        Parameter::amount("rate", "money/h", "what an hour costs").at_least("0"),
        Parameter::amount("parts", "money", "what the parts cost").at_least("0").or("0 money"),
        Parameter::amount("materials", "money", "what fluid and other materials cost")
            .at_least("0")
            .or("0 money"),
        Parameter::amount("tax", "%", "the tax on all of it").at_least("0").at_most("100").or("0 %"),
    ],
    result: Shape::Amount("money"),
    call: |given| Ok(Answer::Number(job(given)?.cost())),
    assumes: &["the tax falls on work, parts and materials alike; nothing is rounded"],
    source: "plain arithmetic",
    example: "job_cost(4.5 h, rate = 96 money/h, parts = 310.40 money, materials = 88 money, tax = 19 %)",
};

pub(super) const TOTAL: Function = Function {
    name: "total",
    summary: "the sum of hours, costs or other amounts of one sort",
    parameters: &[Parameter::new("amounts", Sort::SameAmount, "the amounts").many()],
    result: Shape::Same,
    call: |given| Ok(Answer::Number(total(given.many("amounts")?))),
    assumes: &[],
    source: "plain arithmetic",
    example: "total(1.5 h, 40 min, 2 h)",
};

/// What goes on a bill.
///
/// ```
/// use bayhand::quantity::Num;
/// use bayhand::trade::upkeep::Job;
///
/// let job = Job { work: 2.into(), rate: 50.into(), parts: 100.into(), materials: 0.into(), tax: Num::ratio(1, 10).unwrap() };
/// assert_eq!(job.cost(), 220.into());
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Job {
    /// How long is charged.
    pub work: Num,
    /// What that time costs, for each of it.
    pub rate: Num,
    /// The parts.
    pub parts: Num,
    /// Fluid and other materials.
    pub materials: Num,
    /// The tax on all of it, as a share.
    pub tax: Num,
}

impl Job {
    /// All of it, tax included; exact.
    pub fn cost(&self) -> Num {
        (self.work * self.rate + self.parts + self.materials) * (Num::ONE + self.tax)
    }
}

/// The sum, in the unit of the amounts; exact.
///
/// ```
/// use bayhand::trade::upkeep::total;
///
/// assert_eq!(total(&[1.into(), 2.into(), 4.into()]), 7.into());
/// ```
pub fn total(amounts: &[Num]) -> Num {
    amounts.iter().fold(Num::ZERO, |sum, amount| sum + *amount)
}

fn job(given: &Given<'_>) -> Result<Job, Refusal> {
    Ok(Job {
        work: given.number("work")?,
        rate: given.number("rate")?,
        parts: given.number("parts")?,
        materials: given.number("materials")?,
        tax: given.number("tax")? * Num::ratio(1, 100).unwrap_or(Num::ZERO),
    })
}
