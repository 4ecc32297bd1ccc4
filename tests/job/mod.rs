//! Tests of `job`: what is wrong with one, in which order it can be done, what its runs hand on.

mod balances;
mod cases;
mod dates;
mod due_job;
mod evenings;
mod facts;
mod kept;
mod left;
mod order;
mod practice;
mod proof;
mod recorded;
mod shipped;
mod shop;
mod walked;
