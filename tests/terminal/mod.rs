//! Tests of `terminal`.

mod gauge;
mod manner;
mod plain;
mod scripted;
mod wrapping;

#[cfg(unix)]
mod ending;
#[cfg(unix)]
pub mod pty;
#[cfg(unix)]
mod screen;
#[cfg(unix)]
mod stage;
#[cfg(unix)]
mod typing;
