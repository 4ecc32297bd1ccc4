//! Tests of `job`: what is wrong with one, in which order it can be done, what its runs hand on.

mod evenings;
mod facts;
mod left;
mod order;
mod practice;
mod proof;
mod shipped;
mod shop;
mod walked;
