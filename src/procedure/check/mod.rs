//! Follows names, proves formulas, gives every mention its meaning, and lets the rules judge the whole.

mod assemble;
mod draft;
mod flow;
mod formulas;
mod front_mentions;
mod headings;
mod limits;
mod names;
mod order;
mod resolve;
mod steps;

pub use assemble::check;

pub(super) use draft::{Draft, Mention};
pub(super) use flow::Proved;
pub(super) use formulas::Prover;
pub(super) use front_mentions::front_names;
pub(super) use names::{Declared, Names};
pub(super) use resolve::checked_reading;
pub(super) use steps::{mentions_of, number, show_numbers};
