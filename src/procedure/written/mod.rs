//! What the front matter declares, as written: one small reader a table. Names are not followed and formulas not
//! read yet.

mod choices;
mod codes;
mod conditions;
mod criterion;
mod declarations;
mod entries;
mod hazards;
mod header;
mod holds;
mod people;
mod plausible;
mod readings;
mod supplies;
mod tools;
mod values;
mod vehicle;
mod waits;

pub use codes::CODES;
pub(in crate::procedure) use codes::LIMITS_REVERSED;
pub use conditions::WrittenCondition;
pub use criterion::{WrittenBound, WrittenCriterion};
pub use declarations::{Declarations, read};
pub use entries::{Entry, Table};
pub use holds::WrittenHold;
pub use readings::{WrittenKind, WrittenReading};
pub use supplies::WrittenSupply;
pub use values::WrittenValue;
