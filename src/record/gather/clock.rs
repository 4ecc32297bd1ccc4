//! Where the clock of the entries did not simply go on.

use super::work::moment;
use crate::record::model::ClockJump;
use crate::run::{Jump, Jumped, View};

pub(in crate::record) fn clock(view: View<'_>) -> Vec<ClockJump> {
    let jump = |jump: &Jump| ClockJump {
        when: moment(&jump.stamp),
        back_seconds: match &jump.how {
            Jumped::Back(by) => Some(format!("{}.{:03}", by.as_secs(), by.subsec_millis())),
            Jumped::Offset { .. } => None,
        },
        words: jump.to_string(),
    };
    view.state.times.jumps.iter().map(jump).collect()
}
