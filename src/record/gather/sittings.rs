//! From when to when the work went on, and the state that things were left in.

use crate::record::model::{Moment, Sitting, SittingEnd};
use crate::record::turn::{Turn, moment};
use crate::run::{Event, Leave};

#[derive(Default)]
pub(in crate::record) struct Sittings {
    over: Vec<Sitting>,
    open: Option<(Moment, Option<Moment>)>,
}

impl Sittings {
    pub(in crate::record) fn see(&mut self, turn: Turn<'_>) {
        match turn.event {
            Event::Started(_) => self.open = Some((turn.moment(), None)),
            Event::Resumed => self.resume(turn),
            Event::BriefAccepted => {
                if let Some((_, brief)) = &mut self.open {
                    *brief = Some(turn.moment());
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
                when: turn.moment(),
            }),
            Event::Closed => self.end(wordless("closed", turn.moment())),
            _ => {}
        }
    }

    /// A sitting that is still open when the next begins was broken off by the end of the process or of the power.
    fn resume(&mut self, turn: Turn<'_>) {
        let last = turn.before.last.as_ref().map_or_else(|| turn.moment(), moment);
        self.end(wordless("broken off", last));
        self.open = Some((turn.moment(), None));
    }

    fn end(&mut self, ended: SittingEnd) {
        if let Some((began, brief_read)) = self.open.take() {
            self.over.push(Sitting { began, brief_read, ended });
        }
    }

    pub(in crate::record) fn finish(self) -> Vec<Sitting> {
        self.over
    }
}

fn wordless(how: &str, when: Moment) -> SittingEnd {
    SittingEnd { how: how.to_owned(), reason: None, left: None, first: None, when }
}
