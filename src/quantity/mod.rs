//! Exact numbers, units, quantities and limits.
//!
//! A reading keeps what was typed; arithmetic on readings, limits and unit factors is exact, so that 25.4 mm
//! meets a maximum of 1 in. A temperature and a temperature difference are different things.

mod amount;
mod apart;
mod date;
mod dimension;
mod entry;
mod limit;
mod number;
mod off;
mod preferred;
mod rules;
mod shown;
mod unit;
mod verdict;

pub use amount::{Mismatch, Quantity};
pub(crate) use date::{day_after, days_to};
pub use date::{looks_like_date, parse_date};
pub use dimension::{Dimension, Kind};
pub use entry::{Entry, EntryProblem, in_other_units, parse_entry, parse_literal, parse_typed};
pub use limit::{Limit, Limits};
pub use number::Num;
pub use off::Off;
pub use preferred::Preferred;
pub(crate) use shown::with_unit;
pub use unit::{Row, Unit, UnknownUnit, rows, units};
pub use verdict::{Distance, Outcome, Side, Verdict, judge};
