//! Tests of `terminal`.

#![expect(clippy::expect_used, clippy::panic, reason = "helpers of tests fail like tests")]

mod columns;
mod gauge;
mod grid;
mod in_words;
mod manner;
mod plain;
mod scripted;
mod timing;
mod wrapping;

#[cfg(unix)]
mod ending;
#[cfg(unix)]
mod held;
#[cfg(unix)]
pub mod pty;
#[cfg(unix)]
mod reminded;
#[cfg(unix)]
mod screen;
#[cfg(unix)]
mod stage;
#[cfg(unix)]
mod typing;
