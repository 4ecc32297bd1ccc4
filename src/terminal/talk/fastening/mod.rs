//! The conversation at a group of fasteners: one key a place, a grid of all of them.

mod ask;
mod other;
mod overview;
mod show;

pub(super) use ask::ask;
pub(super) use other::{begun, correctable, corrected, loosened};
pub(super) use overview::overview;
pub(super) use show::{after, asked, brief, failed, question, results, standing, why};
