//! Units: one table, the texts they are known by, and how units make up others.
//!
//! To add a unit add one row to the table in `rows.rs` and one to `tests/reference/units.py`.

mod find;
mod normal;
mod parse;
mod product;
mod rows;
mod table;
mod unit;

pub use find::UnknownUnit;
pub use table::{Row, rows, units};
pub use unit::Unit;
