//! A run and its journal together: what stands on disk is read back, and what is taken is written before it counts.
//!
//! `written` holds the events as they stand in the journal; the live types may change freely.

mod attached;
mod carried;
mod live;
mod written;

pub(crate) use attached::{FILES_FOLDER, LARGEST};
pub use carried::{Carried, NotCarried, carried};
pub use live::{Beginning, LiveRun, NotOpened, NotTaken, StoredRun};
pub use written::written_line;
