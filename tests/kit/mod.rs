//! What a job takes: summed, and the same in every form.

mod forms;
mod read;
mod stage;
mod sums;
