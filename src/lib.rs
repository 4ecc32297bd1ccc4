//! bayhand: a guided, interactive checklist engine for people who take vehicles apart.
//!
//! Data flows one way. Each folder is one stage and uses only what stands above it in this list
//! (`terminal`, `cli` and `system` stand apart):
//!
//! - [`source`]: text, spans, diagnostics and their renderers
//! - [`print`](mod@print): pages as data, printed as text, Markdown and HTML
//! - [`quantity`]: exact numbers, units, quantities, limits
//! - [`trade`]: what the trade computes, one file a subject
//! - [`formula`]: formulas: parsed, dimension-checked, evaluated with a trace
//! - `table`: TOML with a span on every key and value, every mistake reported
//! - [`vehicle`]: vehicle sheets
//! - [`procedure`]: from Markdown text to a checked procedure
//! - [`run`]: the state machine of a run: pure
//! - [`journal`]: the durable log
//! - [`session`]: a run and its journal together
//! - [`answers`]: answers from a file in a person's place
//! - [`record`]: what is left when the run is closed
//! - [`signature`]: who vouches for a record: signatures in the form of OpenSSH
//! - [`catalogue`]: all runs at a glance, the closed ones from an index
//! - [`job`]: procedures on one vehicle over many evenings, seen in their runs
//! - [`kit`]: what a procedure or a job takes, as data and in several forms
//! - [`share`]: the files of a procedure or a job as one archive, and such an archive read
//! - [`terminal`]: the conversation at a terminal
//! - [`cli`]: one file a command
//! - [`system`]: clock, disk, environment: the only door outside

pub mod answers;
pub mod catalogue;
pub mod cli;
pub mod formula;
pub mod job;
pub mod journal;
pub mod kit;
pub mod print;
pub mod procedure;
pub mod quantity;
pub mod record;
pub mod run;
pub mod session;
pub mod share;
pub mod signature;
pub mod source;
pub mod system;
pub(crate) mod table;
pub mod terminal;
pub mod trade;
pub mod vehicle;
