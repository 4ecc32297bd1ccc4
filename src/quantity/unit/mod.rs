//! Units: one table, the texts they are known by, and how units make up others.
//!
//! To add a unit add one row to the table in `rows.rs` and one to `tests/reference/units.py`.

mod find;
mod measure;
mod normal;
mod parse;
mod product;
mod row;
mod rows;
mod table;

pub use find::UnknownUnit;
pub use measure::Unit;
pub use row::Row;
pub use table::{rows, units};
