//! The program itself: at a real terminal, killed and taken up again, and with nobody in front of it.

pub mod stage;

#[cfg(unix)]
mod answers;
#[cfg(unix)]
mod seat;
#[cfg(unix)]
mod walk;
