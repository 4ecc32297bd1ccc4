//! How long fresh air takes to clear a bay.

use super::shared::{DECAY, FLOW, FRESH, FROM, METER, MIXING, TO, VOLUME};
use crate::trade::{Answer, Function, Given, Parameter, Refusal, Shape};

/// A bay and the air that is moved through it, in one set of units: m³ and m³/h, or ft³ and ft³/min.
#[derive(Clone, Copy, Debug)]
pub struct Bay {
    /// Its volume.
    pub volume: f64,
    /// The fresh air that is moved through it in a unit of time.
    pub flow: f64,
    /// How well the air mixes, above 0 and up to 1.
    pub mixing: f64,
}

pub(super) const CHANGES: Function = Function {
    name: "air_changes",
    summary: "how often the air of a bay must be changed to come down from one level to another",
    parameters: &[FROM, TO, MIXING],
    result: Shape::Number,
    call: |given| {
        let (from, to) = falling(given)?;
        Answer::float(air_changes(from, to, given.float("mixing")?))
    },
    assumes: &[FRESH, METER],
    source: DECAY,
    example: "air_changes(from = 200 ppm, to = 25 ppm, mixing = 0.3)",
};

pub(super) const TIME: Function = Function {
    name: "time_to_clear",
    summary: "how long fresh air takes to bring a bay down from one level to another",
    parameters: &[VOLUME, FLOW, FROM, TO, MIXING],
    result: Shape::Amount("h"),
    call: |given| {
        let (from, to) = falling(given)?;
        if given.number("flow")?.is_zero() {
            return Err(Refusal::of(
                "flow",
                "without fresh air the bay never clears: open it, or move air through it",
            ));
        }
        Answer::float(time_to_clear(Bay::of(given)?, from, to))
    },
    assumes: &[FRESH, METER],
    source: DECAY,
    example: "time_to_clear(60 m³, flow = 300 m³/h, from = 200 ppm, to = 25 ppm, mixing = 0.3)",
};

pub(super) const LEVEL_AFTER: Function = Function {
    name: "level_after",
    summary: "the level that is left in a bay after fresh air was moved through it for a time",
    parameters: &[
        VOLUME,
        FLOW,
        FROM,
        Parameter::amount("time", "h", "how long the air was moved").at_least("0"),
        MIXING,
    ],
    result: Shape::Same,
    call: |given| Answer::float(level_after(Bay::of(given)?, given.float("from")?, given.float("time")?)),
    assumes: &[FRESH, METER],
    source: DECAY,
    example: "level_after(60 m³, flow = 300 m³/h, from = 200 ppm, time = 10 min, mixing = 0.3)",
};

pub(super) const FLOW_FROM_DECAY: Function = Function {
    name: "flow_from_decay",
    summary: "the fresh air that a bay gets, from how fast a level in it comes down",
    parameters: &[VOLUME, FROM, TO, Parameter::amount("time", "h", "how long it took").above("0")],
    result: Shape::Amount("m³/h"),
    call: |given| {
        let (from, to) = falling(given)?;
        Answer::float(flow_from_decay(
            given.float("volume")?,
            air_changes(from, to, 1.0),
            given.float("time")?,
        ))
    },
    assumes: &[FRESH, "the air in the bay is fully mixed"],
    source: DECAY,
    example: "flow_from_decay(20 m³, from = 16 ppm, to = 8 ppm, time = 1.4 h)",
};

/// How often the air must be changed to come down from a level to another, both above zero and in one unit.
pub fn air_changes(from: f64, to: f64, mixing: f64) -> f64 {
    libm::log(from / to) / mixing
}

/// How long it takes to come down from a level to another, in the unit of time of the flow.
///
/// ```
/// use bayhand::trade::air::{Bay, time_to_clear};
///
/// let bay = Bay { volume: 60.0, flow: 5.0, mixing: 1.0 };
/// assert!((time_to_clear(bay, 200.0, 25.0) - 24.9533).abs() < 0.0001);
/// ```
pub fn time_to_clear(bay: Bay, from: f64, to: f64) -> f64 {
    air_changes(from, to, bay.mixing) * bay.volume / bay.flow
}

/// The level after `time`, in the unit of `from`; the time in the unit of time of the flow.
pub fn level_after(bay: Bay, from: f64, time: f64) -> f64 {
    from * libm::exp(-bay.mixing * bay.flow * time / bay.volume)
}

/// The fresh air that changed the air of a fully mixed volume `changes` times in `time`.
pub fn flow_from_decay(volume: f64, changes: f64, time: f64) -> f64 {
    changes * volume / time
}

impl Bay {
    pub(super) fn of(given: &Given<'_>) -> Result<Self, Refusal> {
        Ok(Self {
            volume: given.float("volume")?,
            flow: given.float("flow")?,
            mixing: given.float("mixing")?,
        })
    }
}

fn falling(given: &Given<'_>) -> Result<(f64, f64), Refusal> {
    if given.number("to")? > given.number("from")? {
        return Err(Refusal::of("to", "must be at most the level at the start"));
    }
    Ok((given.float("from")?, given.float("to")?))
}
