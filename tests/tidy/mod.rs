//! What no compiler holds us to: layers, the outside door, words, the README's commands.

mod circles;
pub mod files;
mod layers;
mod readme;
mod requirements;
mod words;
