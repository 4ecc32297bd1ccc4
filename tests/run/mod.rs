//! Tests of `run`: the state machine, driven as a terminal or a file of answers would.

mod any_order;
mod decision;
mod drive;
mod holds;
mod invariants;
mod leaving;
mod people;
mod people_checks;
mod people_second;
mod readings;
mod repeats;
mod waits;
mod ways;
