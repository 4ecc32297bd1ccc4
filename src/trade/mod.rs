//! What the trade computes: pure functions, one file or folder a subject.
//!
//! A subject holds documented functions of plain numbers, and a table of [`Function`] rows that makes
//! them callable in formulas. A new subject is one file or folder, its `mod` line here and one row in [`SUBJECTS`].

pub mod air;
mod angle;
pub mod converter;
pub mod cooler;
pub mod driveline;
pub mod electrics;
pub mod evidence;
pub mod fasteners;
pub mod fluid;
mod function;
mod given;
pub mod measurement;
mod parameter;
pub mod support;
pub mod upkeep;

pub use function::{Answer, Function, Shape, Subject};
pub use given::{Argument, Given, Refusal};
pub use parameter::{Arity, End, Parameter, Sort};

/// Every subject of the trade, sorted by name.
pub const SUBJECTS: &[Subject] = &[
    air::AIR,
    converter::CONVERTER,
    cooler::COOLER,
    driveline::DRIVELINE,
    electrics::ELECTRICS,
    evidence::EVIDENCE,
    fasteners::FASTENERS,
    fluid::FLUID,
    measurement::MEASUREMENT,
    upkeep::MONEY_AND_TIME,
    support::SUPPORT,
];
