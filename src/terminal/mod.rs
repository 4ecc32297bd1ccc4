//! Everything between the conversation and the terminal.
//!
//! The conversation sees one trait, [`Ui`], and speaks in [`Text`]: lines of words with roles, never with
//! escape codes. Three implementations stand behind it: [`Tty`] for a capable terminal, [`Plain`] for pipes,
//! simple terminals and screen readers, [`Scripted`] for tests. [`Paged`] stands before each of them and turns pages. [`choose`] decides once which one it is, and
//! whether colour is allowed. [`Guard`] puts the terminal back as it was found, whatever ends the run.
//!
//! Architecture invariant: no environment, no clock and no file is read here; what was found out about them
//! comes in as [`Facts`] and as closures. Every word that goes out passes `clean` once, inside the
//! implementations of [`Ui`], so that text from files and answers cannot move the cursor or hide itself; and whatever
//! leaves the process passes a [`Door`].

mod choosing;
mod clean;
mod columns;
mod door;
mod gauge;
pub mod grid;
mod guard;
mod heard;
mod hints;
mod input;
mod line;
mod lines;
mod manner;
mod open;
mod paged;
mod paint;
mod plain;
mod reminders;
mod scripted;
mod secret;
mod talk;
mod text;
mod tty;
mod ui;
mod wrap;

pub use columns::Columns;
pub use door::Door;
pub use gauge::{Fell, Gauge, Mark};
pub use grid::{Cell, Grid};
pub use guard::Guard;
pub use heard::{Entry, Heard, KeyHint, KeyKind};
pub use hints::offer;
pub use line::{Line, Piece, Role};
pub use lines::{Lines, StandardInput};
pub use manner::{Bell, Facts, Manner, Stream, Wish, choose};
pub use open::open;
pub use paged::Paged;
pub use paint::{paint, rows};
pub use plain::Plain;
pub use scripted::{Asked, Scripted};
pub use secret::secret;
pub use talk::{
    Beside, Earlier, Ended, Outside, Walked, WholeJob, clock, job_at_start, job_kit, job_standing, kit,
    left_open, opening, overview, part, rehearsed, resting, standing, step_in_full, talk, walk, working_copy,
};
pub use text::{Block, Text};
pub use tty::Tty;
pub use ui::{Reminder, Timing, Ui, Wait, is_gone};
