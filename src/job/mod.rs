//! A job: procedures on one vehicle, over many evenings, in an order that is a graph.
//!
//! ```text
//! +++
//! format = 1
//! job = "A cold-start stall on selecting reverse"
//!
//! [procedures.converter-back]
//! after = ["converter-away"]
//! away = "2 wk"
//! +++
//! # Converter out and back
//!
//! 1. [Converter away](converter-away.md)
//! 2. [Converter back](converter-back.md)
//! ```
//!
//! Nothing is kept of a job but its runs: each says in its first entry which job it belongs to, and everything else is
//! seen in them.

mod balance;
pub mod calendar;
mod check;
mod codes;
mod figure;
mod handed;
mod handing;
mod inherited;
mod model;
mod order;
mod read;
pub mod record;
mod standing;

pub use check::check;
pub use codes::CODES;
pub use figure::{Figure, figures};
pub use handed::{Handed, handed_on, sheet_with};
pub use handing::check_handing;
pub use inherited::{JobEnd, inherited, loose_ends, protections};
pub use model::{Balance, Figures, Job, Planned, Source};
pub use read::{is_job, read};
pub use standing::{Stands, standing, time_at};
