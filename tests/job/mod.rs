//! Tests of `job`: what is wrong with one, in which order it can be done, what its runs hand on.

mod evenings;
mod facts;
mod order;
mod shipped;
mod walked;
