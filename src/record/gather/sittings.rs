//! From when to when the work went on, the state that things were left in, and where the clock jumped.

use super::work::moment;
use crate::record::model::{ClockJump, Moment, Sitting, SittingEnd};
use crate::run::{Event, Jump, Jumped, Leave, Stamp, View};

#[derive(Default)]
struct Sittings {
    over: Vec<Sitting>,
    open: Option<(Moment, Option<Moment>)>,
}

pub(in crate::record) fn sittings(events: &[(Event, Stamp)]) -> Vec<Sitting> {
    let mut sittings = Sittings::default();
    let mut last: Option<&Stamp> = None;
    for (event, stamp) in events {
        sittings.see(event, stamp, last);
        last = Some(stamp);
    }
    if let Some(last) = last {
        sittings.end(wordless("not ended", moment(last)));
    }
    sittings.over
}

impl Sittings {
    fn see(&mut self, event: &Event, stamp: &Stamp, before: Option<&Stamp>) {
        match event {
            Event::Started(_) => self.open = Some((moment(stamp), None)),
            // A sitting that is still open when the next begins was broken off by the end of the process or of the power.
            Event::Resumed { .. } => {
                self.end(wordless("broken off", moment(before.unwrap_or(stamp))));
                self.open = Some((moment(stamp), None));
            }
            Event::BriefAccepted => {
                if let Some((_, brief)) = &mut self.open {
                    *brief = Some(moment(stamp));
                }
            }
            Event::Left { how, reason, state, first } => self.end(SittingEnd {
                how: match how {
                    Leave::Suspend => "suspended".to_owned(),
                    Leave::Stop => "stopped".to_owned(),
                },
                reason: Some(reason.clone()),
                left: Some(state.clone()),
                first: first.clone(),
                when: moment(stamp),
            }),
            Event::Closed => self.end(wordless("closed", moment(stamp))),
            _ => {}
        }
    }

    fn end(&mut self, ended: SittingEnd) {
        if let Some((began, brief_read)) = self.open.take() {
            self.over.push(Sitting { began, brief_read, ended });
        }
    }
}

fn wordless(how: &str, when: Moment) -> SittingEnd {
    SittingEnd { how: how.to_owned(), reason: None, left: None, first: None, when }
}

/// Where the clock of the entries did not simply go on.
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
