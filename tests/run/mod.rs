//! Tests of `run`: the state machine, driven as a terminal or a file of answers would.

mod any_order;
mod decision;
mod drive;
mod fasteners;
mod holds;
mod invariants;
mod leaving;
mod readings;
mod repeats;
mod waits;
mod ways;
