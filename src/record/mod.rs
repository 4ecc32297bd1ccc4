//! What is left of a run: a record that a stranger can read, and that shows whether it was changed.
//!
//! [`build`] prints the tree of occurrences that a run has come to as a [`model::Record`] and seals it. A run that is not
//! closed has one too: it says so first, and what is open. [`to_json`] is the record as data, [`report::page`] the same as a page
//! that is printed as text, Markdown or HTML, [`to_csv`] its readings as rows. [`verify()`] does it all again from the
//! texts that the record carries, so that a changed summary is found as well as a changed journal.
//!
//! The seal is a SHA-256 over the record without its seal in the canonical form of RFC 8785, so it does not depend on how
//! the JSON is laid out. It shows accidents and edits. Whoever can rewrite the whole record can make a new seal: only a
//! signature binds it to a person.

pub(crate) use amounts::{amount, said};
mod amounts;
mod attached;
mod build;
pub mod compare;
mod counted;
pub mod csv;
mod finding;
mod gather;
pub mod history;
pub mod impact;
mod items;
mod json;
mod judging;
pub mod model;
mod permitted;
mod redact;
pub mod rejudged;
mod replacing;
pub mod report;
mod seal;
pub mod text;
mod verify;

pub use attached::{Attachment, attachments};
pub use build::{Kept, build};
pub use csv::to_csv;
pub use finding::Finding;
pub use json::{SCHEMA, to_json};
pub use redact::{Hidden, NotRedacted, redacted};
pub(crate) use seal::sealed;
pub use seal::{METHOD, NotCanonical, canonical, seal_of};
pub use verify::{Verified, entries_of, proved, verified, verified_run, verified_with, verify};
