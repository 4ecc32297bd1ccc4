//! Tests of `job`: what is wrong with one, in which order it can be done, what its runs hand on.

mod balances;
mod cases;
mod dates;
mod due_job;
mod order;
mod recorded;
mod shipped;
mod walked;
