//! Clock, disk, environment: the only door outside.
//!
//! [`System`] is made once in `main` and handed down; nothing here is global. The stages themselves are pure and never
//! see it. Tests hand in [`scripted`] parts: a clock that stands still, a disk that fills up or fails to sync.
//!
//! Architecture invariant: no other folder calls `std::fs`, `std::env` or a clock (held by the list in `clippy.toml`).

mod agent;
mod at_once;
mod clock;
mod data_folder;
mod disk;
mod disk_error;
mod environment;
mod real_disk;
mod real_log;
mod scratch;
pub mod scripted;
mod time_sense;
mod whole;
mod zone;

pub use clock::{Clock, RealClock, moment_of};
pub use data_folder::NoDataFolder;
pub use disk::{Disk, Entry, Lock, LogFile, Standing};
pub use disk_error::{DiskError, Doing, Why};
pub use environment::Environment;
pub use real_disk::RealDisk;
pub use scratch::ScratchFolder;
pub use time_sense::NoTime;
pub use whole::System;
