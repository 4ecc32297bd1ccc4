//! Tests of `run`: the state machine, driven as a terminal or a file of answers would.

mod any_order;
mod before_after;
mod decision;
mod deferred;
mod deviations;
pub mod drive;
mod fasteners;
mod holds;
mod interrupted;
mod invariants;
mod leaving;
mod links;
mod readings;
mod repeats;
mod waits;
mod ways;
