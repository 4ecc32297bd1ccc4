//! Steps, and what became of each.

use std::collections::BTreeMap;

use super::wording::filled;
use crate::procedure::{self, StepId};
use crate::record::model::{Step, Turn as StepTurn};
use crate::record::turn::{Turn, performers};
use crate::run::{Event, Status, View};

/// What became of a step of which nothing is left to do.
const DONE: &str = "done";

#[derive(Default)]
pub(in crate::record) struct Steps(BTreeMap<StepId, Vec<StepTurn>>);

impl Steps {
    pub(in crate::record) fn see(&mut self, turn: Turn<'_>) {
        match turn.event {
            Event::Deferred { step, reason, before } => {
                let target = turn.book.procedure.step(*before).map(|step| step.number.as_str());
                let to = format!("deferred (before {})", target.unwrap_or_default());
                self.turned(*step, &to, Some(reason), turn);
            }
            Event::NotApplicable { step, reason } => {
                self.turned(*step, "not applicable", Some(reason), turn);
            }
            _ => {}
        }
        for step in turn.after.completed.keys().filter(|step| !turn.before.completed.contains_key(step)) {
            self.turned(*step, DONE, None, turn);
        }
        for step in turn.before.completed.keys().filter(|step| !turn.after.completed.contains_key(step)) {
            self.turned(*step, "reopened", None, turn);
        }
    }

    fn turned(&mut self, step: StepId, to: &str, reason: Option<&String>, turn: Turn<'_>) {
        let late = turn.late().filter(|_| to == DONE);
        let turned = StepTurn { to: to.to_owned(), reason: reason.cloned(), when: turn.moment(), late };
        self.0.entry(step).or_default().push(turned);
    }

    pub(in crate::record) fn finish(mut self, view: View<'_>) -> Vec<Step> {
        let steps = view.book.procedure.steps().iter();
        steps.map(|step| became(view, step, self.0.remove(&step.id).unwrap_or_default())).collect()
    }
}

fn became(view: View<'_>, step: &procedure::Step, turns: Vec<StepTurn>) -> Step {
    let status = view.status(step, None);
    let section = view.book.procedure.section(step.section);
    Step {
        number: step.number.clone(),
        section: section.map(|section| section.title.clone()).unwrap_or_default(),
        text: filled(view, &step.text),
        state: status.word().to_owned(),
        why: match status {
            Status::NotApplicable(why) => Some(why),
            _ => None,
        },
        who: if turns.is_empty() { Vec::new() } else { performers(view.state, Some(step)) },
        turns,
    }
}
