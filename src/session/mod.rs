//! A run and its journal together: what stands on disk is read back, and what is taken is written before it counts.
//!
//! `written` holds the events as they stand in the journal; the live types may change freely.

mod attached;
mod books;
mod carried;
mod live;
mod not_opened;
mod written;

pub(crate) use attached::{FILES_FOLDER, LARGEST};
pub use books::Books;
pub use carried::{Carried, NotCarried, carried};
pub use live::{Beginning, LiveRun, NotTaken, StoredRun};
pub use not_opened::NotOpened;
pub use written::written_line;
