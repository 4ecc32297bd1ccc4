//! Follows names, proves formulas, gives every mention its meaning, and lets the rules judge the whole.

mod assemble;
mod draft;
mod formulas;
mod front_mentions;
mod headings;
mod limits;
mod names;
mod order;
mod places;
mod proved;
mod resolve;
mod steps;
mod wanted;
pub(super) mod words;

pub use assemble::check;

pub(super) use draft::{Decided, Draft};
pub(super) use formulas::Prover;
pub(super) use front_mentions::front_names;
pub(super) use limits::Owner;
pub(super) use names::{Declared, Names, Valued};
pub(super) use places::Mention;
pub(super) use proved::Proved;
pub(super) use steps::{mentions_of, number, show_numbers};
pub(super) use wanted::Wanted;
