//! Tests of `journal` and of `system`, the door it writes through.
#![allow(
    clippy::disallowed_methods,
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "these tests damage files, kill processes, and fail by panicking"
)]

mod cases;
mod digest;
mod disk;
mod environment;
mod faults;
mod flips;
mod kill;
mod lock;
mod moved;
mod roundtrip;
mod runs;
mod support;
mod time;
mod truncation;
