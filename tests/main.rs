//! The one integration test binary: a module an area, golden cases as files in `cases/`.

mod cli;
mod formula;
mod journal;
mod procedure;
mod quantity;
mod record;
mod run;
mod source;
mod terminal;
mod tidy;
mod trade;
