//! The durable log of a run.
//!
//! A run is a folder: `journal.jsonl`, and the exact copies `procedure.md` and `vehicle.toml` that it was started with.
//! The journal is the only durable truth of a run: one JSON object a line,
//!
//! ```text
//! {"format":1,"seq":1,"time":"2026-11-21T18:30:05.123+01:00","prev":"e3b0...","event":{...}}
//! {"seq":2,"time":"2026-11-21T18:31:40.007+01:00","prev":"9c1f...","event":{...}}
//! ```
//!
//! where `prev` is the SHA-256 of all bytes of the line before, its newline included (of nothing, for the first), so that
//! `sed -n 1p journal.jsonl | sha256sum` shows it. `format` stands in the first line only.
//!
//! What is promised: an event that [`Journal::append`] has acknowledged is there after a kill or a power cut. An event that
//! was not acknowledged may be there, wholly, or be found as a torn tail, which [`Journal::open`] moves to a file beside
//! and reports. Any other damage is an error that names the line; nothing is repaired.
//!
//! What is not promised: the chain cannot show that the last line was changed, or that lines were cut off at the end. The
//! seal of the record, made over [`Head`], does. The lock is advisory and may not hold on a network share.
//!
//! The body of an event is anything that serialises; the journal knows nothing of runs. Numbers that must be exact belong
//! in texts. A float that is not finite would become `null`.
//!
//! Format 1 is the first; this is the place to list what later ones change.

mod begin;
mod chain;
mod contents;
mod damage;
mod digest;
mod error;
mod holder;
mod line;
mod open;
mod order;
mod origin;
mod run_id;
mod runs;
mod sound;
mod strict;
mod time;
mod writer;

pub use begin::NotBegun;
pub(crate) use chain::check;
pub use contents::{Contents, Head, Line, Recorded, Torn};
pub use damage::Damage;
pub(crate) use damage::Flaw;
pub use digest::Digest;
pub use error::{Holder, JournalError};
pub(crate) use line::chained;
pub use origin::{Named, Origin};
pub use run_id::RunId;
pub(crate) use runs::linked_file;
pub use runs::{Broken, Pinned, Runs};
pub(crate) use strict::strict_json;
pub use time::{NotATime, read_time, write_time};
pub use writer::{Journal, Stamp};

/// The format that is written, and the only one so far that is read.
pub const FORMAT: u64 = 1;

/// The largest journal that is written or read: 64 MiB, some hundred thousand events.
pub const MOST_BYTES: u64 = 64 << 20;

/// The journal's file in the folder of a run.
const JOURNAL_FILE: &str = "journal.jsonl";

/// The file beside it that is locked by whoever writes.
const LOCK_FILE: &str = "journal.lock";

/// The note of who that is.
const HOLDER_FILE: &str = "journal.holder";
