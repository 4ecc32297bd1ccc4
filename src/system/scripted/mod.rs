//! Parts of a system that do as they are told: for tests, and for whoever wants to see what a failing disk does.

mod clock;
mod disk;
mod faults;
mod log;

pub use clock::ScriptedClock;
pub use disk::FaultyDisk;
pub use faults::{Fault, HowFar};
