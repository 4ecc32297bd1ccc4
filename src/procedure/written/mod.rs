//! What the front matter declares, one file a table: how an entry is read, which names it speaks of, and what it is
//! once those are followed and its formulas proved. The list of the tables is in [`super::tables`].

mod checks;
mod choices;
mod codes;
mod conditions;
mod criterion;
mod critical;
mod declarations;
mod entries;
mod fasteners;
mod handling;
mod hazards;
mod header;
mod holds;
mod instead;
mod instead_codes;
mod levels;
mod only_what;
mod people;
mod plausible;
mod readings;
mod repeats;
mod rules_off;
mod second;
mod stages;
mod stopwatch;
mod supplies;
mod tools;
mod values;
mod vehicle;
mod waits;
mod watches;

pub use codes::CODES;
pub(in crate::procedure) use codes::LIMITS_REVERSED;
pub use criterion::{WrittenBound, WrittenCriterion};

pub use declarations::read;
pub(super) use entries::read_entries;
pub use fasteners::{WrittenFasteners, WrittenPositions};
pub use handling::WrittenCeiling;
pub(super) use header::header;
pub use holds::WrittenHold;
pub use readings::{WrittenKind, WrittenReading};
pub(super) use repeats::texts;
pub use repeats::{WrittenPasses, WrittenRepeat};
pub use rules_off::WrittenRuleOff;
pub(super) use rules_off::rules_off;

pub use checks::{Check, Witness};
pub use conditions::{Condition, Ground, WrittenCondition, WrittenGround};
pub use critical::{Critical, Typing};
pub use hazards::{Hazard, Signal};
pub use only_what::{Alternatives, NamedStep, StoppingPoint};
pub use people::{Role, WrittenRole};
pub use stages::{WrittenGoal, WrittenSetting, WrittenStage};
pub use supplies::{Supply, WrittenSupply};
pub use tools::Tool;
pub use values::{Value, WrittenValue};
pub use vehicle::VehicleValue;
pub use waits::Wait;
pub use watches::{Watch, WrittenWatch};
