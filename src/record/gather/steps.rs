//! Steps, and what became of each.

use std::collections::BTreeMap;

use super::wording::{filled, origin};
use crate::procedure::{self, StepId};
use crate::record::model::{Step, Turn as StepTurn};
use crate::record::turn::{Turn, performers};
use crate::run::{Before, Event, FlowEvent, InterruptionEvent, State, Status, View};

/// What became of a step of which nothing is left to do.
const DONE: &str = "done";

/// What became of a step that was done, and that a correction or a repeat given up took out.
const STOPPED: &str = "does not apply any more";

#[derive(Default)]
pub(in crate::record) struct Steps {
    turns: BTreeMap<StepId, Vec<StepTurn>>,
    /// Whose step it was when it was last done.
    who: BTreeMap<StepId, Vec<String>>,
}

impl Steps {
    pub(in crate::record) fn see(&mut self, turn: Turn<'_>) {
        match turn.event {
            Event::Deferred { step, reason, before } => {
                let target = turn.book.procedure.step(*before).map(|step| step.number.as_str());
                let to = format!("deferred (before {})", target.unwrap_or_default());
                self.turned(*step, &to, Some(reason), turn);
            }
            Event::NotApplicable { step, reason } => {
                self.turned(*step, "to be left out", Some(reason), turn);
            }
            Event::Interruption(InterruptionEvent::Approved { step, by }) => {
                self.turned(*step, &format!("not applicable, approved by {by}"), None, turn);
            }
            Event::Interruption(InterruptionEvent::NotApproved { step, reason }) => {
                self.turned(*step, "not left out", Some(reason), turn);
            }
            Event::Interruption(InterruptionEvent::DeferredToEnd { step, section, reason }) => {
                let to = format!("deferred (at {})", Before::EndOf(*section).words(turn.book));
                self.turned(*step, &to, Some(reason), turn);
            }
            _ => {}
        }
        for step in turn.after.completed.keys().filter(|step| !turn.before.completed.contains_key(step)) {
            self.completed(*step, turn);
        }
        for step in turn.before.completed.keys().filter(|step| !turn.after.completed.contains_key(step)) {
            if let Some(to) = not_done_any_more(*step, turn) {
                self.turned(*step, to, None, turn);
            }
        }
    }

    fn completed(&mut self, step: StepId, turn: Turn<'_>) {
        let stopped =
            self.turns.get(&step).and_then(|turns| turns.last()).is_some_and(|last| last.to == STOPPED);
        let to = if begin(turn.after, step) < begin(turn.before, step) {
            let pass = turn.view().pass_words(step).unwrap_or_default();
            format!("no further pass is made after {pass}")
        } else if stopped {
            "applies again, as it was done".to_owned()
        } else {
            let pass = turn.view_before().pass_words(step);
            pass.map_or_else(|| DONE.to_owned(), |pass| format!("{DONE}, {pass}"))
        };
        self.turned(step, &to, None, turn);
        self.who.insert(step, performers(turn.after, turn.book.procedure.step(step)));
    }

    fn turned(&mut self, step: StepId, to: &str, reason: Option<&String>, turn: Turn<'_>) {
        let late = turn.late().filter(|_| to.starts_with(DONE));
        let turned = StepTurn { to: to.to_owned(), reason: reason.cloned(), when: turn.moment(), late };
        self.turns.entry(step).or_default().push(turned);
    }

    pub(in crate::record) fn finish(mut self, view: View<'_>) -> Vec<Step> {
        let steps = view.book.procedure.steps().iter();
        let of_step = |step: &procedure::Step| {
            let turns = self.turns.remove(&step.id).unwrap_or_default();
            let who = self.who.remove(&step.id);
            became(view, step, turns, who)
        };
        steps.map(of_step).collect()
    }
}

/// The entry after which the present pass of a step began.
fn begin(state: &State, step: StepId) -> u64 {
    state.begins.of_step(step)
}

/// What became of a step that was done and is not any more. A new pass takes nothing back: what was done was done in
/// the pass before.
fn not_done_any_more(step: StepId, turn: Turn<'_>) -> Option<&'static str> {
    let is_begun_anew = turn.after.moved.len() > turn.before.moved.len();
    if begin(turn.after, step) > begin(turn.before, step) && !is_begun_anew {
        let is_next =
            matches!(turn.event, Event::Flow(FlowEvent::PassEnded { .. } | FlowEvent::Extended { .. }));
        return (!is_next).then_some("a further pass is to be made");
    }
    let status = turn.book.procedure.step(step).map(|step| turn.view().status(step, None));
    Some(if matches!(status, Some(Status::NotApplicable(_))) { STOPPED } else { "reopened" })
}

fn became(view: View<'_>, step: &procedure::Step, turns: Vec<StepTurn>, who: Option<Vec<String>>) -> Step {
    let who = who.unwrap_or_else(|| performers(view.state, Some(step)));
    let status = view.status(step, None);
    let section = view.book.procedure.section(step.section);
    Step {
        number: step.number.clone(),
        section: section.map(|section| section.title.clone()).unwrap_or_default(),
        from: origin(&view.book.procedure, step.source),
        text: filled(view, &step.text),
        state: status.word().to_owned(),
        why: match status {
            Status::NotApplicable(why) => Some(why),
            _ => None,
        },
        who: if turns.is_empty() { Vec::new() } else { who },
        turns,
    }
}
