//! What must be true before and after the job, and leaving and coming back.

mod apply;
mod ask;
mod decide;
mod event;
mod script;

pub use ask::{InterruptionAnswer, InterruptionAsk};
pub(super) use decide::decide;
pub use event::{Declared, InterruptionEvent};
