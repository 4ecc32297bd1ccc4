//! Tests of `run`: the state machine, driven as a terminal or a file of answers would.

mod any_order;
mod as_found;
mod ceilings;
mod critical;
mod decision;
mod drive;
mod holds;
mod instruments;
mod invariants;
mod leaving;
mod readings;
mod repeats;
mod revised;
mod sides;
mod waits;
mod watches;
mod ways;
