//! Tightening a group of fasteners, place by place and stage by stage.
//!
//! What was done is kept as a row of acts; which places are done, failed or left out, and which comes next, is worked
//! out from the acts of one occurrence.

mod aim;
mod decide;
mod event;
mod facts;
mod places;
mod tightening;

pub use aim::Aim;
pub(super) use decide::{decide, meant};
pub use event::{FasteningAnswer, FasteningAsk, FasteningEvent, Spot};
pub use facts::Act;
pub use places::place_count;
pub use tightening::{Place, Tightening};
