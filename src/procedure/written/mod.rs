//! What the front matter declares, as written: one small reader a table. Names are not followed and formulas not
//! read yet.

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
mod people;
mod plausible;
mod readings;
mod repeats;
mod rules_off;
mod second;
mod stopwatch;
mod supplies;
mod tools;
mod values;
mod vehicle;
mod waits;
mod watches;

pub use checks::{WrittenCheck, WrittenWitness};
pub use codes::CODES;
pub(in crate::procedure) use codes::LIMITS_REVERSED;
pub use conditions::{WrittenCondition, WrittenGround};
pub use criterion::{WrittenBound, WrittenCriterion};
pub use critical::{WrittenCritical, WrittenTyped};
pub use declarations::{Declarations, read};
pub use entries::{Entry, Table};
pub use fasteners::{WrittenFasteners, WrittenPattern, WrittenPositions, WrittenStage};
pub use handling::{WrittenCeiling, WrittenHandling};
pub use holds::WrittenHold;
pub use people::WrittenRole;
pub use readings::{WrittenKind, WrittenReading};
pub use repeats::{WrittenPasses, WrittenRepeat};
pub use rules_off::WrittenRuleOff;
pub use second::WrittenSecond;
pub use supplies::WrittenSupply;
pub use values::WrittenValue;
pub use watches::WrittenWatch;
