//! What a procedure or a whole job takes, as data; and that data as Markdown, CSV and JSON.
//!
//! ```text
//! View of a procedure ─ gather ─▶ ProcedureKit ─┬─ sums ─▶ JobKit ─┬▶ rows ─▶ Markdown, CSV
//!                                               └──────────────────┴▶ JSON, and the terminal's text
//! ```
//!
//! Every form tells the same: none works anything out.

mod csv;
mod gather;
mod job;
mod json;
mod markdown;
mod model;
mod rows;
mod sums;

pub use csv::csv;
pub use gather::{good_for, procedure_kit};
pub use job::job_kit;
pub use json::json;
pub use markdown::markdown;
pub use model::{
    Buy, Evening, First, JobKit, Kit, Moment, Person, PlannedWait, ProcedureKit, SectionLevel, Sum,
    SupplyKit, Time, ToolKit, ToolSum,
};
