//! One file to be passed on: what belongs to a procedure or a job, in a ZIP archive; and such an archive read, whoever made
//! it.
//!
//! ```text
//! start ─ gather: follows links ─▶ Bundle ─ pack ─▶ bytes ─ unpack: refuses what is not sound ─▶ Bundle ─▶ place
//! ```
//!
//! Only `place` reads and writes files, on the disk that it is handed: all of a bundle, or nothing of it.

mod bundle;
mod differ;
mod gather;
mod pack;
mod path;
mod place;
mod refused;
mod unpack;

pub use bundle::{Bundle, BundleProblem, MOST_BYTES, MOST_FILES};
pub use differ::differences;
pub use gather::{NotGathered, Start, gather, links};
pub use pack::pack;
pub use path::{PathProblem, SharedPath};
pub use place::{Placed, Places, Standing, place};
pub use refused::Refused;
pub use unpack::unpack;
