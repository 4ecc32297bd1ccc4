//! Tests of `run`: the state machine, driven as a terminal or a file of answers would.

mod any_order;
mod clock_jumps;
mod decision;
mod drive;
mod holds;
mod invariants;
mod lateness;
mod leaving;
mod logs;
mod missed;
mod readings;
mod repeats;
mod stopwatch;
mod waits;
mod ways;
