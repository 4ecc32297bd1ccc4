//! Tests of `run`: the state machine, driven as a terminal or a file of answers would.

mod any_order;
mod as_found;
mod ceilings;
mod clock_jumps;
mod critical;
mod decision;
mod drive;
mod fasteners;
mod holds;
mod instruments;
mod invariants;
mod lateness;
mod leaving;
mod logs;
mod missed;
mod readings;
mod repeats;
mod revised;
mod sides;
mod stopwatch;
mod waits;
mod watches;
mod ways;
