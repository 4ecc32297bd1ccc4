//! Every group of fasteners of a job, place by place: what became of it, and what was reached.

use super::model::{FastenerPlace, Fasteners};
use crate::record::model::{FastenerAct, FastenerGroup, FastenerStage, FastenerTarget, Record};

pub(super) fn fasteners(record: &Record) -> impl Iterator<Item = Fasteners> {
    let counts = record.fasteners.iter().filter(|group| group.place.aside.is_none());
    counts.map(|group| Fasteners {
        run: record.run.clone(),
        name: group.name.clone(),
        what: group.what.clone(),
        step: group.step.clone(),
        pass: group.place.pass.clone(),
        state: state(record, group),
        places: group.order.iter().map(|position| place(group, position)).collect(),
    })
}

/// What became of a group; where its step does not apply, that.
fn state(record: &Record, group: &FastenerGroup) -> String {
    let own = record.steps.iter().find(|step| step.number == group.step && step.place == group.place);
    let is_out = own.is_some_and(|step| step.state == "not applicable");
    if is_out { "not applicable".to_owned() } else { group.state.clone() }
}

fn place(group: &FastenerGroup, position: &str) -> FastenerPlace {
    let at = |stage: &FastenerStage| stage.places.iter().find(|place| place.position == position).cloned();
    let worked = group.stages.iter().rev().find_map(|stage| {
        let act = at(stage)?.acts.into_iter().next_back()?;
        Some((stage, act))
    });
    let last = group.stages.last().and_then(at);
    let mut loosened = group
        .loosened
        .iter()
        .filter(|loosened| loosened.position.as_deref().is_none_or(|loosened| loosened == position));
    FastenerPlace {
        position: position.to_owned(),
        state: last.map_or_else(|| "not done".to_owned(), |last| last.state),
        stage: worked.as_ref().map(|(stage, _)| stage.what.clone()),
        target: worked.as_ref().and_then(|(stage, _)| stage.target.as_ref().and_then(target)),
        reached: worked.as_ref().and_then(|(_, act)| reached(act)),
        loosened: loosened.next_back().map(|loosened| loosened.reason.clone()),
        when: worked.map(|(_, act)| act.when),
    }
}

fn reached(act: &FastenerAct) -> Option<String> {
    let reached = act.reached.as_ref()?;
    let asked = reached.asked.as_ref().map(|asked| format!(" ({})", asked.amount.shown));
    Some(format!("{}{}", reached.typed.shown, asked.unwrap_or_default()))
}

/// `24 N·m`, or the limits where any value between them is good.
fn target(target: &FastenerTarget) -> Option<String> {
    if let Some(amount) = &target.amount {
        return Some(amount.shown.clone());
    }
    let lower = target.lower.as_ref().map(|limit| format!("at least {}", limit.amount.shown));
    let upper = target.upper.as_ref().map(|limit| format!("at most {}", limit.amount.shown));
    let both: Vec<String> = lower.into_iter().chain(upper).collect();
    (!both.is_empty()).then(|| both.join(", "))
}
