//! What the trade computes: pure functions, one file a subject.
//!
//! A subject's file holds documented functions of plain numbers, and a table of [`Function`] rows that makes
//! them callable in formulas. A new subject is one file, its `mod` line here and one row in [`SUBJECTS`].

mod angle;
pub mod driveline;
pub mod fasteners;
pub mod fluid;
mod function;
mod given;
mod parameter;
mod subjects;

pub use function::{Answer, Function, Shape};
pub use given::{Argument, Given, Refusal};
pub use parameter::{Arity, End, Parameter, Sort};
pub use subjects::{SUBJECTS, Subject};
