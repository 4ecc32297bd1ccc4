//! The one integration test binary: a module an area, golden cases as files in `cases/`.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "clippy's own leave for tests ends at #[test]; helpers around them need it too"
)]

mod campaign;
mod cli;
mod formula;
mod fuzz;
mod job;
mod journal;
mod kit;
mod procedure;
mod quantity;
mod record;
mod run;
mod session;
mod share;
mod signature;
mod source;
mod terminal;
mod tidy;
mod trade;
mod whole;
