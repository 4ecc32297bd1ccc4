//! Money and time: what the job costs, and when the next service is due. Money is exact.

use super::{Answer, Function, Given, Parameter, Refusal, Shape, Sort, Subject};
use crate::quantity::Num;

/// The functions about money and time.
pub const MONEY_AND_TIME: Subject =
    Subject { name: "money and time", functions: &[JOB_COST, TOTAL, SERVICE_LEFT, TIME_TO_SERVICE] };

const JOB_COST: Function = Function {
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

const TOTAL: Function = Function {
    name: "total",
    summary: "the sum of hours, costs or other amounts of one sort",
    parameters: &[Parameter::new("amounts", Sort::SameAmount, "the amounts").many()],
    result: Shape::Same,
    call: |given| Ok(Answer::Number(total(given.many("amounts")?))),
    assumes: &[],
    source: "plain arithmetic",
    example: "total(1.5 h, 40 min, 2 h)",
};

const SERVICE_LEFT: Function = Function {
    name: "service_left",
    summary: "how far it is to the next service, in distance or running hours; below zero it is overdue by so much",
    parameters: &[
        Parameter::new("meter", Sort::SameAmount, "what the odometer or hour meter shows").at_least("0"),
        Parameter::new("last", Sort::SameAmount, "what it showed at the last service").at_least("0"),
        Parameter::new("interval", Sort::SameAmount, "the interval of the service information").above("0"),
    ],
    result: Shape::Same,
    call: |given| {
        let (meter, last) = (given.number("meter")?, given.number("last")?);
        service_left(meter, last, given.number("interval")?)
            .map(overdue_or_not)
            .ok_or_else(|| Refusal::of("meter", "must not be less than at the last service"))
    },
    assumes: &["the meter was neither changed nor set back"],
    source: "plain arithmetic",
    example: "service_left(84200 km, last = 60000 km, interval = 60000 km)",
};

const TIME_TO_SERVICE: Function = Function {
    name: "time_to_service",
    summary: "how long until the next service, at the use there has been so far; below zero so long ago",
    parameters: &[
        Parameter::new(
            "left",
            Sort::SameAmount,
            "how far it is to the next service; below zero it is overdue",
        ),
        Parameter::new("used", Sort::SameAmount, "how far it went, or ran, in `over`").above("0"),
        Parameter::amount("over", "d", "the time in which it did").above("0"),
    ],
    result: Shape::Amount("d"),
    call: |given| {
        let (left, used) = (given.number("left")?, given.number("used")?);
        time_to_service(left, used, given.number("over")?)
            .map(overdue_or_not)
            .ok_or_else(|| Refusal::of("used", "must be more than zero"))
    },
    assumes: &["the vehicle is used on as it was; an interval in months may end sooner"],
    source: "plain arithmetic",
    example: "time_to_service(35800 km, used = 24200 km, over = 52 wk)",
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

/// How far it is to the next service, all in one unit; exact. `None` when the meter shows less than at the last one.
///
/// ```
/// use bayhand::trade::upkeep::service_left;
///
/// assert_eq!(service_left(84_200.into(), 60_000.into(), 60_000.into()), Some(35_800.into()));
/// ```
pub fn service_left(meter: Num, last: Num, interval: Num) -> Option<Num> {
    (meter >= last).then(|| last + interval - meter)
}

/// How long it takes to use up `left` at the pace of `used` in `over`, in the unit of `over`; exact. `None` when
/// nothing was used.
///
/// ```
/// use bayhand::trade::upkeep::time_to_service;
///
/// assert_eq!(time_to_service(500.into(), 100.into(), 7.into()), Some(35.into()));
/// ```
pub fn time_to_service(left: Num, used: Num, over: Num) -> Option<Num> {
    (left * over).checked_div(used)
}

fn overdue_or_not(left: Num) -> Answer {
    if left.is_negative() {
        return Answer::Noted { number: left, note: "the service is overdue by so much".to_owned() };
    }
    Answer::Number(left)
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
