//! The program itself: at a real terminal, killed and taken up again, and with nobody in front of it.

pub mod stage;

#[cfg(unix)]
mod any_moment;
#[cfg(unix)]
mod at_once;
#[cfg(unix)]
mod brief;
#[cfg(unix)]
mod broken_disk;
#[cfg(target_os = "linux")]
mod broken_for_real;
#[cfg(unix)]
mod critical;
#[cfg(unix)]
mod ending;
#[cfg(unix)]
mod every_question;
#[cfg(unix)]
mod fasteners;
#[cfg(unix)]
mod flush;
#[cfg(unix)]
mod hold_point;
#[cfg(unix)]
mod instead;
#[cfg(unix)]
mod judging;
#[cfg(unix)]
mod kills;
#[cfg(unix)]
mod links;
#[cfg(unix)]
mod looking;
#[cfg(unix)]
mod not_begun;
#[cfg(unix)]
mod people;
#[cfg(unix)]
mod readings;
#[cfg(unix)]
mod resting;
#[cfg(unix)]
mod robot;
#[cfg(unix)]
pub mod seat;
#[cfg(unix)]
mod times;
#[cfg(unix)]
mod trouble;
#[cfg(unix)]
mod units;
#[cfg(unix)]
mod walk;
